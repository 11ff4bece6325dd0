/** All places but Check itself and Fit: what has to do with the garage. */
import '../app/shell.js';
import { focusNext } from '../app/focus.js';
import { lookAtStorage } from '../app/storage.js';
import { openBackup } from '../screens/backup-actions.js';
import { backup } from '../screens/backup.js';
import { openBikePlace, openBikes } from '../screens/bike-actions.js';
import { bikeAdd } from '../screens/bike-add.js';
import { bikeCare } from '../screens/bike-care.js';
import { bikeChain } from '../screens/bike-chain.js';
import { bikeChains } from '../screens/bike-chains.js';
import { bikeChange } from '../screens/bike-change.js';
import { bikeDistance } from '../screens/bike-distance.js';
import { bikeEdit, openEdit } from '../screens/bike-edit.js';
import { bike } from '../screens/bike.js';
import { bikes } from '../screens/bikes.js';
import { openChange } from '../screens/change-actions.js';
import { cost, openCost } from '../screens/cost.js';
import { openGlass } from '../screens/glass-actions.js';
import { glass } from '../screens/glass.js';
import { openTool, openTools } from '../screens/instrument-actions.js';
import { instrument, instruments } from '../screens/instruments.js';
import { openJoin } from '../screens/join-actions.js';
import { join } from '../screens/join.js';
import { openKeep } from '../screens/keep-actions.js';
import { keepReading } from '../screens/keep.js';
import { kept, openKept } from '../screens/kept.js';
import { kit } from '../screens/kit.js';
import { openPhoto } from '../screens/photo-actions.js';
import { frame } from '../screens/photo-frame.js';
import { photo } from '../screens/photo.js';
import { openRound, startRounds } from '../screens/round-arrive.js';
import { openTags, tags } from '../screens/round-tags.js';
import { round } from '../screens/round.js';
import { openShare } from '../screens/share-actions.js';
import { share } from '../screens/share.js';
import { openShopping, shopping } from '../screens/shopping.js';

startRounds();

/** @type {import('../app/router.js').Shown} */
export const places = {
  bikes: { screen: bikes, open: openBikes },
  bike: { screen: bike, open: openBikePlace },
  add: { screen: bikeAdd, open: () => focusNext('bike-name') },
  care: { screen: bikeCare, open: openBikePlace },
  chain: { screen: bikeChain, open: openBikePlace },
  chains: { screen: bikeChains, open: openBikePlace },
  distance: { screen: bikeDistance, open: openBikePlace },
  edit: { screen: bikeEdit, open: openEdit },
  change: { screen: bikeChange, open: openChange },
  shopping: { screen: shopping, open: openShopping },
  cost: { screen: cost, open: openCost },

  round: { screen: round, open: openRound },
  tags: { screen: tags, open: openTags },

  kit: { screen: kit, open: lookAtStorage },
  join: { screen: join, open: openJoin },
  share: { screen: share, open: openShare },
  backup: { screen: backup, open: openBackup },
  instruments: { screen: instruments, open: openTools },
  instrument: { screen: instrument, open: openTool },

  glass: { screen: glass, open: openGlass },
  photo: { screen: photo, open: openPhoto },
  frame: { screen: frame },
  kept: { screen: kept, open: openKept },
  keep: { screen: keepReading, open: openKeep },
};
