// A form with files as bytes (RFC 7578; HTML, "multipart/form-data encoding algorithm"). Written out here because
// WebKit cannot read a form with a file back from a Response of it ("Unable to read form data blob").

export const MOST_FILE = 60e6; // bytes; as screens/carried.py has it for a phone

const escaped = (text) => text.replace(/\r\n|[\r\n]/g, "%0D%0A").replaceAll('"', "%22");
const kind = (file) => (/^[\w.+-]+\/[\w.+-]+$/.test(file.type) ? file.type : "application/octet-stream");

export async function multipart(data) {
  const random = crypto.getRandomValues(new Uint8Array(16)); // no file has it by chance
  const boundary = `undertile-${[...random].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
  const pieces = [];
  for (const [name, value] of data) {
    const head = `--${boundary}\r\nContent-Disposition: form-data; name="${escaped(name)}"`;
    if (typeof value === "string") pieces.push(`${head}\r\n\r\n${value.replace(/\r\n|[\r\n]/g, "\r\n")}\r\n`);
    else {
      const told = `${head}; filename="${escaped(value.name)}"\r\nContent-Type: ${kind(value)}\r\n\r\n`;
      pieces.push(told, await value.arrayBuffer(), "\r\n");
    }
  }
  pieces.push(`--${boundary}--\r\n`);
  const body = new Uint8Array(await new Blob(pieces).arrayBuffer());
  return { headers: { "content-type": `multipart/form-data; boundary=${boundary}` }, body };
}
