// Python starts while the page is still being read. Only where the tool is on the phone already: before that the
// page waits for the bundle, lest it be fetched twice.

if (navigator.serviceWorker?.controller) {
  const worker = new Worker(new URL("worker.js", import.meta.url), { type: "module", name: "screens" });
  const heard = [];
  worker.onmessage = ({ data }) => heard.push(data);
  worker.onerror = (event) => heard.push({ failed: event.message || "the worker could not be loaded" });
  worker.postMessage({ do: "start", id: 0, role: "screens" });
  window.undertileEarly = { worker, heard };
}
