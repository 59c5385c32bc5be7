// Shared by all tabs: browsers allow few connections to one host, and a tab that waits for one stalls.
"use strict";
/** @type {MessagePort[]} */
const ports = [];
let last = "";
/** @param {string} text */
const tell = (text) => ports.forEach((port) => port.postMessage(text));
const source = new EventSource("/events");
source.addEventListener("news", (event) => tell(last = event.data));
source.addEventListener("error", () => tell("offline"));
addEventListener("connect", (event) => {
  const [port] = /** @type {MessageEvent} */ (event).ports;
  ports.push(port);
  if (last) port.postMessage(last);
});
