// A Voicehall client after docs/protocol.md: joins, follows, reads, sends readings and results, comes back.
import crypto from 'node:crypto';
import { EventEmitter } from 'node:events';
import WebSocket from 'ws';

export function parseLink(link) {
  const match = /^voicehall:\/\/(\[[^\]]+\]|[^:/]+)(?::(\d+))?\/#(.*)$/.exec(link.trim());
  if (!match) throw new Error(`not a link: ${link}`);
  const parts = Object.fromEntries(match[3].split('&').map((part) => part.split('=')));
  return { host: match[1], port: Number(match[2] ?? 443), code: parts.c, token: parts.t, pin: parts.k };
}

export const randomId = () => crypto.randomBytes(16).toString('hex');
export const sha256 = (bytes) => crypto.createHash('sha256').update(bytes).digest('hex');

/** An Ed25519 key pair: one device. */
export class Device {
  constructor() {
    const pair = crypto.generateKeyPairSync('ed25519');
    this.secret = pair.privateKey;
    this.publicKey = pair.publicKey.export({ format: 'der', type: 'spki' }).subarray(-32).toString('hex');
  }
  sign(purpose, subject, nonce, role) {
    const text = ['voicehall.1', purpose, subject, nonce, role].join('\n');
    return crypto.sign(null, Buffer.from(text, 'ascii'), this.secret).toString('hex');
  }
}

/** The offset of the relay's clock to ours, from the exchange with the least delay among the last 8. */
export class RelayClock {
  #samples = [];
  add(t1, t2, t3, t4) {
    this.#samples.push({ offset: (t2 - t1 + (t3 - t4)) / 2, delay: t4 - t1 - (t3 - t2) });
    if (this.#samples.length > 8) this.#samples.shift();
  }
  get offset() {
    return this.#samples.reduce((best, each) => (each.delay < best.delay ? each : best)).offset;
  }
  now() {
    return Date.now() + this.offset;
  }
}

/** Milliseconds to wait before the n-th try (from 0): a random part of 0.3 s, 0.6 s, ... 3 s. */
export const backOff = (tries) => Math.random() * Math.min(3000, 300 * 2 ** tries);

export function encodeReading(r) {
  const bytes = Buffer.alloc(26);
  bytes.set([1, 1, 0]);
  bytes.writeUInt32BE(r.turn, 3);
  bytes.writeUInt32BE(r.voicedMs, 7);
  bytes.writeUInt32BE(r.heardMs, 11);
  bytes.writeUInt32BE(r.elapsedMs, 15);
  bytes.writeInt16BE(Math.round(r.overUsualDb * 10), 19);
  bytes.writeInt16BE(Math.round(r.nowOverUsualDb * 10), 21);
  bytes.set([r.trustPercent, 0, 1], 23);
  return bytes;
}

const standings = ['notYet', 'inBand', 'below', 'above', 'straining', 'noVoice', 'cantTell', 'resting', 'private', 'away'];

export function decodeRoster(bytes) {
  const entries = [];
  for (let at = 3; at + 7 <= bytes.length; at += 7) {
    const flags = bytes[at + 4];
    entries.push({
      seat: bytes.readUInt16BE(at),
      standing: standings[bytes[at + 2]],
      overUsualDb: flags & 1 ? bytes.readInt16BE(at + 5) / 10 : null,
      voicedNow: (flags & 2) !== 0,
    });
  }
  return { whole: (bytes[2] & 1) !== 0, entries };
}

/**
 * One person on one device. Emits every message by its type, 'part' (hash, bytes), 'roster', and 'lost' (code).
 * `enter` says how to come in the first time; afterwards it logs in by itself. What was asked for and not answered is
 * asked for again.
 */
export class Client extends EventEmitter {
  constructor({ host, port, pin }, device, enter) {
    super();
    Object.assign(this, { host, port, pin, device, enter, clock: new RelayClock(), tries: 0, boardSince: 0 });
    this.board = new Map();
    this.unanswered = new Map();
    this.leaving = false;
    this.setMaxListeners(100);
  }

  connect() {
    const socket = new WebSocket(`${this.pin === null ? 'ws' : 'wss'}://${this.host}:${this.port}/hall`, 'voicehall.1', {
      perMessageDeflate: false,
      rejectUnauthorized: !this.pin, // with a pin the key alone decides, below
    });
    this.socket = socket;
    socket.on('upgrade', (response) => {
      if (!this.pin) return;
      const certificate = new crypto.X509Certificate(response.socket.getPeerCertificate().raw);
      const key = certificate.publicKey.export({ type: 'spki', format: 'der' });
      if (crypto.createHash('sha256').update(key).digest('base64url') !== this.pin) {
        this.leaving = true;
        this.emit('keyChanged');
        socket.terminate();
      }
    });
    socket.on('open', () => this.say({ type: 'hello', min: 1, max: 1, features: [], app: 'node-client 1' }));
    socket.on('message', (data, isBinary) => (isBinary ? this.#binary(data) : this.#text(JSON.parse(data.toString('utf8')))));
    socket.on('error', () => {}); // 'close' follows
    socket.on('close', (code) => this.#closed(code));
  }

  say(message) {
    if (this.socket.readyState === WebSocket.OPEN) this.socket.send(JSON.stringify(message));
  }
  sendReading(reading) {
    if (this.socket.readyState === WebSocket.OPEN) this.socket.send(encodeReading(reading));
  }
  /** Something to be done once; asked again after a lost line until it is answered. */
  request(type, fields = {}) {
    const message = { type, id: randomId(), ...fields };
    return new Promise((done, failed) => {
      this.unanswered.set(message.id, { message, done, failed });
      this.say(message);
    });
  }
  askClock() {
    this.say({ type: 'clock', sent: Date.now() });
  }
  leave() {
    this.leaving = true;
    this.say({ type: 'bye' });
  }
  /** As a pulled plug. */
  breakLine() {
    this.socket.terminate();
  }
  /** The first message of this type, from now on or the state in hand, that fits. */
  when(type, fits = () => true) {
    return new Promise((done) => {
      const listener = (message) => {
        if (!fits(message)) return;
        this.off(type, listener);
        done(message);
      };
      this.on(type, listener);
      if (type === 'place' && this.place) listener(this.place);
    });
  }

  #text(message) {
    switch (message.type) {
      case 'challenge':
        this.#enter(message.nonce);
        break;
      case 'atDoor':
        this.group = message.group;
        break;
      case 'welcome':
        this.#welcome(message);
        break;
      case 'place':
        if (message.seq <= this.seq) return;
        this.seq = message.seq;
        this.place = message;
        break;
      case 'class':
        if (message.seq <= this.seq) return;
        this.seq = message.seq;
        this.open = message;
        break;
      case 'board':
        if (message.seq <= this.seq) return;
        this.seq = message.seq;
        this.#takeBoard(message.items);
        break;
      case 'clockAnswer':
        this.clock.add(message.sent, message.received, message.answered, Date.now());
        break;
      case 'ack':
      case 'refused': {
        const asked = this.unanswered.get(message.id);
        this.unanswered.delete(message.id);
        if (asked) message.type === 'ack' ? asked.done(message) : asked.failed(new Error(`${asked.message.type}: ${message.code}`));
        break;
      }
    }
    this.emit(message.type, message);
  }

  #enter(nonce) {
    const { device } = this;
    const role = this.role ?? 'participant';
    if (this.role) {
      this.say({ type: 'login', group: this.group, key: device.publicKey, role, epoch: this.epoch, lastSeq: this.seq,
        signature: device.sign('login', this.group, nonce, role), boardSince: this.boardSince });
    } else {
      const { token, code, name } = this.enter;
      const how = token ? { type: 'redeem', token } : { type: 'knock', code };
      this.say({ ...how, key: device.publicKey, name, device: 'test machine',
        signature: device.sign(how.type, token ?? code, nonce, role) });
    }
  }

  #welcome(message) {
    Object.assign(this, { group: message.group, role: message.role, epoch: message.epoch, seq: message.seq, seat: message.seat });
    this.open = message.open ?? null;
    this.place = message.place ?? null;
    this.tries = 0;
    this.#takeBoard(message.board);
    this.askClock();
    for (const { message: again } of this.unanswered.values()) this.say(again);
    if (this.place) this.emit('place', this.place);
  }

  #takeBoard(items) {
    for (const item of items) {
      this.board.set(item.item, item);
      this.boardSince = Math.max(this.boardSince, item.change);
    }
  }

  #binary(bytes) {
    if (bytes[0] === 3) this.emit('part', bytes.subarray(3, 35).toString('hex'), bytes.subarray(35));
    if (bytes[0] === 4) this.emit('roster', decodeRoster(bytes));
    // 2 is sound, which a client without ears skips; others are of later versions
  }

  #closed(code) {
    this.emit('lost', code);
    const forGood = code === 1000 || (code >= 4001 && code <= 4004);
    if (!this.leaving && !forGood) this.timer = setTimeout(() => this.connect(), backOff(this.tries++));
  }
}
