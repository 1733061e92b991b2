// This phone's own key to the laptop it is paired with (hosts/server/pairing.py), in a place of its own: the laptop's
// page that asks for the code writes it too, which knows nothing of the log. On the disk before it is told to anybody.

const NAME = "undertile-key";
const STORE = "key";

function inStore(mode, work) {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(NAME, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE);
    asked.onerror = () => reject(asked.error);
    asked.onblocked = () => reject(new Error("blocked"));
    asked.onsuccess = () => {
      const db = asked.result;
      const transaction = db.transaction(STORE, mode, { durability: "strict" });
      const its = work(transaction.objectStore(STORE));
      transaction.onabort = () => reject(transaction.error);
      transaction.oncomplete = () => {
        db.close();
        resolve(its.result);
      };
    };
  });
}

// "" where there is none, or the browser keeps nothing here.
export const keptKey = () => inStore("readonly", (store) => store.get(1)).catch(() => "").then((key) => key || "");

// 128 random bits in hex, kept; "" where the browser keeps nothing here.
export function newKey() {
  const key = [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return inStore("readwrite", (store) => store.put(key, 1)).then(
    () => key,
    () => "",
  );
}
