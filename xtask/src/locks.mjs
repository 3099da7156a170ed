// The other implementation's part: opens what ours has locked, and locks the same for ours. `node locks.mjs PACKAGE FOLDER`; `node locks.mjs
// PACKAGE FOLDER fixtures` writes the fixtures of lock/tests/fixtures instead, once and for all.
const [packageFolder, folder, what] = process.argv.slice(2);
const { readdir, readFile, writeFile } = await import("node:fs/promises");
const { join } = await import("node:path");
const { Decrypter, Encrypter, armor, generateIdentity, identityToRecipient } = await import(join(packageFolder, "dist/index.js"));

async function locked(content, words, work) {
  const encrypter = new Encrypter();
  encrypter.setPassphrase(words);
  if (work) encrypter.setScryptWorkFactor(work);
  return encrypter.encrypt(content);
}

async function opened(bytes, words) {
  const decrypter = new Decrypter();
  decrypter.addPassphrase(words);
  return decrypter.decrypt(bytes);
}

async function exchange() {
  const ours = (await readdir(folder)).filter((name) => name.includes("-ours."));
  let n = 0;
  for (const name of ours) {
    const [number, end] = name.split("-ours.");
    const content = await readFile(join(folder, `${number}-content`));
    const words = await readFile(join(folder, `${number}-words`), "utf8");
    const file = await readFile(join(folder, name));
    const given = await opened(end === "txt" ? armor.decode(file.toString("utf8")) : file, words);
    if (Buffer.compare(Buffer.from(given), content) !== 0) throw new Error(`${name}: something else is in it`);
    const back = await locked(new Uint8Array(content), words, 10);
    await writeFile(join(folder, `${number}-theirs.${end}`), end === "txt" ? armor.encode(back) : back);
    n += 1;
  }
  if (n === 0) throw new Error("no file of ours is there");
  console.log(`another implementation opened ${n} of ours and locked ${n} for us`);
}

async function fixtures() {
  const content = new Uint8Array(await readFile(join(folder, "content.json")));
  const words = "four words stand apart";
  const write = (name, bytes) => writeFile(join(folder, name), bytes);
  await write("binary.age", await locked(content, words, 12));
  await write("armor.txt", armor.encode(await locked(content, words, 12)));
  await write("unicode.age", await locked(content, "Räder über Straße 排球", 12));
  await write("empty-words.age", await locked(content, "", 12));
  await write("by-itself.age", await locked(content, words));
  await write("work-19.age", await locked(content, words, 19));
  const key = new Encrypter();
  key.addRecipient(await identityToRecipient(await generateIdentity()));
  await write("key.age", await key.encrypt(content));
}

await (what === "fixtures" ? fixtures() : exchange());
