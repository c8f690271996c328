// What is handed to the user as a file.

export function download(what: BlobPart, name: string, type: string): void {
  const url = URL.createObjectURL(new Blob([what], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
