// A made-up language that nobody can read and everybody can recognise.
const kPlain = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ';
const kOdd = 'åƀçđéƒǧħíĵķļɱñöþǫŕšŧüṽŵẋýžÅƁÇĐÉƑǦĦÍĴĶĻṀÑÖÞǪŔŠŦÜṼŴẊÝŽ';
const odd = Array.from(kOdd);

const changed = (text: string): string =>
  Array.from(text, (c) => {
    const at = kPlain.indexOf(c);
    return at < 0 ? c : (odd[at] ?? c);
  }).join('');

export function pseudo(catalogue: Record<string, string>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(catalogue).map(([key, text]) => [
      key,
      `⟦${text
        .split(/(\{\w+\})/)
        .map((part) => (part.startsWith('{') ? part : changed(part)))
        .join('')}⟧`,
    ]),
  );
}
