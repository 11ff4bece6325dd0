/** Reads server-sent events as the HTML standard says (section 9.2.6), of what a server of ours sends. Pure. */

/**
 * @returns {(text: string) => {event: string, id: string, data: string}[]} takes text as it arrives, in pieces cut
 *   anywhere, and gives the events that are whole by then
 */
export function eventReader() {
  let rest = '';
  let [event, id, data] = ['', '', ''];
  return (text) => {
    const lines = (rest + text).split(/\r\n|\r(?!$)|\n/);
    rest = lines.pop() ?? '';
    /** @type {{event: string, id: string, data: string}[]} */
    const whole = [];
    for (const line of lines) {
      if (line === '') {
        if (data !== '') whole.push({ event: event || 'message', id, data: data.slice(0, -1) });
        [event, data] = ['', ''];
        continue;
      }
      const [, name, value] = /^([^:]*)(?:: ?(.*))?$/s.exec(line) ?? ['', '', ''];
      if (name === 'event') event = value ?? '';
      else if (name === 'data') data += `${value ?? ''}\n`;
      else if (name === 'id' && !value?.includes('\0')) id = value ?? '';
    }
    return whole;
  };
}
