// A module with everything it imports as one plain script in a file of its own; what is imported is the file's address.
declare module '*?one-script' {
  const address: string;
  export default address;
}
