import { reader } from "./reader";

/** The text of the square code in a picture file, or null where none is found. Rejects when the file is no picture, and with NoReader. */
export async function readPicture(file: Blob): Promise<string | null> {
  const picture = await createImageBitmap(file);
  try {
    return await (await reader())(picture);
  } finally {
    picture.close();
  }
}
