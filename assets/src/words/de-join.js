/** Texts of Join in German. */
export default {
  'join.title': 'Einer Garage beitreten',
  'join.means': 'Jemand hat dieses Telefon in eine gemeinsame Garage eingeladen. Tritt es bei:',
  'join.means.1':
    'Räder, Messungen und Rundgänge der Garage kommen auf dieses Telefon und bleiben auf dem Stand, sobald Netz da ist.',
  'join.means.2': 'Was hier darin eingetragen wird, sehen alle darin, mit dem Namen dieses Telefons.',
  'join.means.3': 'Wer den Link geschickt hat, bestimmt, was dieses Telefon darf, und kann es wieder ausschließen.',
  'join.own': 'Die Räder, die schon auf diesem Telefon sind, bleiben, in einer eigenen Garage.',
  'join.device': 'Name dieses Telefons',
  'join.device.hint': 'Damit die anderen wissen, wer es ist, etwa Adas Telefon.',
  'join.main': 'Beitreten',
  'join.busy': 'Einen Moment …',
  'join.name': 'Namen geben',
  'join.not': 'Nicht jetzt',
  'join.none': 'In dieser Adresse steckt keine Einladung. Den Link noch einmal öffnen oder um einen neuen bitten.',
  'join.away': 'Zu Prüfen',
  'join.signal': 'Kein Netz, oder der Server ist nicht da. Der Link lässt sich später noch einmal öffnen.',
  'join.in': 'Dabei: {name}',
  'join.role.owner': 'Rolle: Besitz. Dieses Telefon darf alles und lädt andere ein.',
  'join.role.leader':
    'Rolle: Leitung. Dieses Telefon darf Räder, Ketten und Rundgänge anlegen und ändern und Messungen eintragen.',
  'join.role.checker':
    'Rolle: Prüfung. Dieses Telefon darf messen, Strecke und Pflege eintragen und Räder im Rundgang abhaken.',
  'join.role.viewer': 'Rolle: Einsicht. Dieses Telefon sieht alles und ändert nichts.',
  'join.bring.title': 'Und die Räder, die hier waren?',
  'join.bring.one':
    'Ein Rad steht in der eigenen Garage dieses Telefons. Es kann dort bleiben oder für alle sichtbar in die gemeinsame kommen.',
  'join.bring.many':
    '{n} Räder stehen in der eigenen Garage dieses Telefons. Sie können dort bleiben oder für alle sichtbar in die gemeinsame kommen.',
  'join.bring': 'In diese Garage bringen',
  'join.brought': 'Sie stehen jetzt in der gemeinsamen Garage.',
  'join.bikes': 'Ihre Räder ansehen',
  'join.round': 'Zum Rundgang',
};
