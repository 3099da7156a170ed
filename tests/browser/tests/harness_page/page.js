const fig = name => document.querySelector(`[data-fig="${name}"]`);
const add = name => { fig(name).textContent = Number(fig(name).textContent) + 1; };
const say = what => { fig("said").textContent = what; };

for (const key of ["left", "right"]) {
    const button = document.querySelector(`[data-key="${key}"]`);
    button.addEventListener("pointerdown", () => add("taps"));
    button.addEventListener("click", () => add("clicks"));
}
addEventListener("keydown", e => { if (e.key === "k" && !e.repeat) add("keys"); });
document.querySelector("[data-field=kind]").addEventListener("change", e => say(`kind ${e.target.value}`));
document.querySelector("[data-field=file]").addEventListener("change", async e => say(await e.target.files[0].text()));

const opening = indexedDB.open("harness", 1);
opening.onupgradeneeded = () => opening.result.createObjectStore("kept", { autoIncrement: true });
opening.onerror = () => say(`no database: ${opening.error.name}`);
opening.onsuccess = () => {
    const database = opening.result;
    const show = () => {
        const counting = database.transaction("kept").objectStore("kept").count();
        counting.onsuccess = () => { fig("kept").textContent = counting.result; };
    };
    show();
    document.querySelector("[data-key=keep]").addEventListener("pointerdown", () => {
        const transaction = database.transaction("kept", "readwrite", { durability: "strict" });
        transaction.objectStore("kept").add({ at: Date.now() });
        transaction.oncomplete = show;
        transaction.onabort = () => say(`not kept: ${transaction.error?.name}`);
        transaction.commit();
    });
};
