/** Places of named things in their list; what is not there has none, which is a fault of the caller. */
export const placesOf = (list: readonly { readonly id: string }[]): ((id: string) => number) => {
  const places = new Map(list.map(({ id }, i) => [id, i]));
  return (id) => {
    const place = places.get(id);
    if (place === undefined) throw new RangeError(`nothing is called "${id}" here`);
    return place;
  };
};
