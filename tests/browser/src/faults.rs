//! Owns the scripts that make storage fail as real browsers let it fail, or that record how it is used. Give one to
//! [`crate::Phone::inject`] before the page is opened. A full phone is better made by [`crate::Phone::quota`], which is real.
//! Those reach pages; [`crate::Stage::inject_worker`] brings one to the app's worker.

/// The database refuses to open, as with a damaged profile: a real request with a real error event.
pub const DATABASE_WONT_OPEN: &str = r"{
    const real = IDBFactory.prototype.open;
    IDBFactory.prototype.open = function (name) {
        const request = real.call(this, `${name} refused ${Math.random()}`, 1);
        request.addEventListener('upgradeneeded', event => {
            event.stopImmediatePropagation();
            request.transaction.abort();
        });
        const error = new DOMException('Internal error opening backing store for indexedDB.open.', 'UnknownError');
        Object.defineProperty(request, 'error', { get: () => error });
        return request;
    };
}";

/// Opening the database throws, as some private windows do.
pub const DATABASE_THROWS: &str = r"IDBFactory.prototype.open = () => {
    throw new DOMException('A mutation operation was attempted on a database that did not allow mutations.', 'InvalidStateError');
};";

/// There is no database at all.
pub const NO_DATABASE: &str = "Object.defineProperty(globalThis, 'indexedDB', { value: undefined });";

/// Every transaction that writes aborts with a quota error, as on a full phone: the requests succeed, then the commit fails.
/// `globalThis.__full = false` makes room again.
pub const FULL: &str = r"globalThis.__full = true;
{
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
        const transaction = real.call(this, stores, mode, options);
        if (mode === 'readwrite' && globalThis.__full) {
            const error = new DOMException('The disk is full.', 'QuotaExceededError');
            Object.defineProperty(transaction, 'error', { get: () => error });
            const fail = () => { try { transaction.abort(); } catch { /* over already */ } };
            transaction.commit = fail;
            queueMicrotask(() => setTimeout(fail));
        }
        return transaction;
    };
}";

/// While the session's `newer` says so, this is a newer app: it opens the database in a higher version, which it makes of the one that is there.
pub const NEWER_APP: &str = r"{
    const real = IDBFactory.prototype.open;
    IDBFactory.prototype.open = function (name, ...a) {
        if (!sessionStorage.getItem('newer')) return real.call(this, name, ...a);
        const request = real.call(this, name, 9);
        request.addEventListener('upgradeneeded', event => event.stopImmediatePropagation());
        return request;
    };
}";

/// The next `__abort` transactions that write are aborted, as a browser may for reasons of its own.
pub const ABORTED: &str = r"{
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
        const transaction = real.call(this, stores, mode, options);
        if (mode === 'readwrite' && globalThis.__abort > 0) {
            globalThis.__abort -= 1;
            transaction.commit = () => transaction.abort();
        }
        return transaction;
    };
}";

/// `__loseDatabase()` closes every connection behind the page's back and says so by a `close` event, as a phone does in the background.
pub const LOSABLE_DATABASE: &str = r"{
    const open = new Set();
    const real = IDBFactory.prototype.open;
    IDBFactory.prototype.open = function (...a) {
        const request = real.apply(this, a);
        request.addEventListener('success', () => open.add(request.result));
        return request;
    };
    globalThis.__loseDatabase = () => {
        for (const database of open) { database.close(); database.dispatchEvent(new Event('close')); }
        open.clear();
    };
}";

/// After `__silence = true` the next connection that writes never says again what became of a transaction, as one that a phone
/// has forgotten in the background. Another connection is well.
pub const SILENT_CONNECTION: &str = r"{
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
        const transaction = real.call(this, stores, mode, options);
        if (mode === 'readwrite' && globalThis.__silence) { this.silent = true; globalThis.__silence = false; }
        if (this.silent) {
            for (const end of ['complete', 'abort', 'error']) transaction.addEventListener(end, event => event.stopImmediatePropagation());
        }
        return transaction;
    };
}";

/// Reading from a database never answers, until `globalThis.__heard` or, on a page, the session's `well` says otherwise.
pub const SILENT_READS: &str = r"{
    const well = () => globalThis.__heard || globalThis.sessionStorage?.getItem('well');
    for (const name of ['get', 'getAll', 'getAllKeys']) {
        const real = IDBObjectStore.prototype[name];
        IDBObjectStore.prototype[name] = function (...a) {
            const request = real.apply(this, a);
            if (!well()) for (const end of ['success', 'error']) request.addEventListener(end, event => event.stopImmediatePropagation());
            return request;
        };
    }
}";

/// A worker is given jobs and never says a word about them.
pub const SILENT_WORKER: &str = "Worker.prototype.postMessage = () => {};";

/// No database can be deleted.
pub const NO_ERASE: &str = r"IDBFactory.prototype.deleteDatabase = () => {
    throw new DOMException('Internal error deleting database.', 'UnknownError');
};";

/// A share sheet as Chromium's: no `.json`, only in answer to a tap, one at a time. What it was given is in `__shared`; while
/// `__closes` it is closed without sending.
pub const SHARE_SHEET: &str = r"globalThis.__shared = [];
navigator.canShare = data => !!data.files?.every(file => file.name.endsWith('.txt') && file.type === 'text/plain');
navigator.share = async data => {
    if (globalThis.__open) throw new DOMException('An earlier share has not yet completed.', 'InvalidStateError');
    if (!navigator.canShare(data) || !navigator.userActivation.isActive) throw new DOMException('Permission denied', 'NotAllowedError');
    globalThis.__open = true;
    const files = await Promise.all(data.files.map(async file => ({ name: file.name, type: file.type, text: await file.text() })));
    globalThis.__open = false;
    if (globalThis.__closes) throw new DOMException('Share canceled', 'AbortError');
    globalThis.__shared.push(...files);
};";

/// What [`RECORD_TRANSACTIONS`] wrote down in a worker is told to whoever asks: see [`TOLD_BY_THE_WORKER`].
pub const TELL: &str = r"{
    const channel = new BroadcastChannel('faults');
    channel.onmessage = event => { if (event.data === 'tell') channel.postMessage(globalThis.__transactions); };
}";

/// On a page: the transactions of the worker, once one that writes is over.
pub const TOLD_BY_THE_WORKER: &str = r"new Promise(done => {
    const channel = new BroadcastChannel('faults');
    const asking = setInterval(() => channel.postMessage('tell'), 100);
    channel.onmessage = event => {
        const writes = event.data.filter?.(one => one.mode === 'readwrite') ?? [];
        if (!writes.some(one => one.end)) return;
        clearInterval(asking); channel.close(); done(writes);
    };
})";

/// Reading or writing local storage throws, as with cookies forbidden.
pub const NO_LOCAL_STORAGE: &str = r"Object.defineProperty(globalThis, 'localStorage', {
    get() { throw new DOMException('Access is denied for this document.', 'SecurityError'); },
});";

/// Local storage can be read but takes nothing more.
pub const FULL_LOCAL_STORAGE: &str = r"Storage.prototype.setItem = () => {
    throw new DOMException('Setting the value exceeded the quota.', 'QuotaExceededError');
};";

/// Writes down every transaction, for [`crate::Phone::transactions`].
pub const RECORD_TRANSACTIONS: &str = r"globalThis.__transactions = [];
{
    const entries = new WeakMap();
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode = 'readonly', options = undefined) {
        const transaction = real.call(this, stores, mode, options);
        const entry = { mode, durability: transaction.durability, writes: 0, commit: false, end: '' };
        entries.set(transaction, entry);
        for (const end of ['complete', 'abort']) transaction.addEventListener(end, () => { entry.end = end; });
        globalThis.__transactions.push(entry);
        return transaction;
    };
    const commit = IDBTransaction.prototype.commit;
    IDBTransaction.prototype.commit = function () { entries.get(this).commit = true; return commit.call(this); };
    for (const name of ['put', 'add', 'delete', 'clear']) {
        const write = IDBObjectStore.prototype[name];
        IDBObjectStore.prototype[name] = function (...a) {
            const entry = entries.get(this.transaction);
            if (entry) entry.writes += 1;
            return write.apply(this, a);
        };
    }
}";
