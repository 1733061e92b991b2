// Photos on their way to this phone, piece by piece, kept as they come: one goes on at the byte where it broke off,
// also after the page was closed. A photo counts once it is whole and is what its hash says.

const MOST_SIZE = 30e6; // bytes of one photo, as job/archive.py has it
const MOST_BEGUN = 10; // photos on their way at once; the oldest is dropped and asked for again (store/album.py)

const got = (request) =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = (event) => reject(event.target.error);
  });
const all = (hash) => IDBKeyRange.bound([hash], [hash, []]);

export class Pieces {
  constructor(log, hashOf) {
    this.log = log;
    this.hashOf = hashOf;
    this.here = null; // hash: bytes that are here, the one begun last at the end
  }

  async look() {
    if (this.here) return;
    const keys = await this.log.inOne(["parts"], "readonly", async (store) => {
      const parts = store("parts");
      const [names, sizes] = await Promise.all([got(parts.getAllKeys()), got(parts.getAll())]);
      return names.map(([hash], at) => [hash, sizes[at].byteLength]);
    });
    this.here = new Map();
    for (const [hash, size] of keys) this.here.set(hash, (this.here.get(hash) || 0) + size);
  }

  has(hash) {
    return this.here.has(hash);
  }

  // From which byte on to ask for a photo, by the beginning of its hash.
  from(key) {
    for (const [hash, size] of this.here) if (hash.startsWith(key)) return size;
    return 0;
  }

  // Keep a piece that goes on where the last one ended; the whole with the last one, if its hash is right.
  async take({ hash, size, at, content }) {
    if (at !== (this.here.get(hash) || 0) || !(size <= MOST_SIZE)) return null; // twice, or out of turn
    const bytes = Uint8Array.from(atob(content), (each) => each.charCodeAt(0));
    if (at + bytes.length < size) {
      await this.log.inOne(["parts"], "readwrite", (store) => got(store("parts").put(bytes, [hash, at])));
      this.here.set(hash, at + bytes.length);
      if (this.here.size > MOST_BEGUN) await this.drop(this.here.keys().next().value);
      return null;
    }
    const before = await this.log.inOne(["parts"], "readonly", (store) => got(store("parts").getAll(all(hash))));
    const whole = new Uint8Array(await new Blob([...before, bytes]).arrayBuffer());
    if (whole.length === size && (await this.hashOf(whole)) === hash) return whole;
    await this.drop(hash); // from the first byte again
    return null;
  }

  async drop(hash) {
    this.here.delete(hash);
    await this.log.inOne(["parts"], "readwrite", (store) => got(store("parts").delete(all(hash))));
  }
}
