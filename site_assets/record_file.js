// Files and pasted cells of a lab record, as the browser hands them over. No physics here.

// a record as a file to save; the byte-order mark tells a spreadsheet that the letters are UTF-8
export const blobOf = (file) => new Blob(["\ufeff", file.csv], { type: "text/csv" });

// the {bytes} of a file, or a {text} that says why there are none
export async function bytesOf(file, most) {
  if (file.size > most) {
    const [size, limit] = [file.size, most].map((n) => n.toLocaleString("en"));
    return { text: `${file.name} has ${size} bytes; a record has a few thousand, and at most ${limit} are read. Is it the right file?` };
  }
  try {
    return { bytes: new Uint8Array(await file.arrayBuffer()) };
  } catch (error) {
    return { text: `${file.name} could not be read: ${error.message}. Choose it once more.` };
  }
}

// the cells of a spreadsheet, a list for each line
export function cellsOf(text) {
  return text.replace(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n").map((line) => line.split("\t"));
}
