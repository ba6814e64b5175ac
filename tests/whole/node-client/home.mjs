// A participant's home: what it takes to come in, follow a class, send what was heard, and come back after a lost line.
// The same lines carry every other role; what leaders and helpers send is plain requests.

import { EventEmitter } from 'node:events'
import { decodeBinary, encodeReading } from './binary.mjs'
import { Device, newId, sha256 } from './device.mjs'
import { Line, Refused, comeAgain } from './line.mjs'
import { OtherKey, tidyCode } from './way.mjs'

const READING_EVERY = 260 // ms; at most four a second
const CLOCK_EVERY = 30_000

// Events: every message by its type, 'roster', 'sound' (of the leader or of who speaks; with `whose`), 'back' (welcome after a lost line), 'gone' (not to come again), and
// 'change' after anything at all.
export class Home extends EventEmitter {
  // `now`: ms of this home's own clock. `microphone(elapsedMs, turn)`: what was heard since the turn began.
  // `network()`: waited for before each try to come back.
  constructor({ where, device = new Device(), name = '', deviceName = 'node', role = 'participant', microphone = null,
    now = () => performance.timeOrigin + performance.now(), network = async () => {} }) {
    super()
    Object.assign(this, { where: { ...where }, device, name, deviceName, role, microphone, now, network })
    this.line = null
    this.state = 'out' // out, door, in, gone
    this.welcome = null
    this.atDoor = null
    this.group = null
    this.epoch = null
    this.lastSeq = 0
    this.boardSince = 0
    this.board = new Map()
    this.agreements = new Map()
    this.open = null
    this.place = null
    this.voice = null // how the leader's voice comes; null: not
    this.speaking = null // who is heard by all, while somebody is
    this.invited = null // the question to this person, while it stands
    this.speakingSeq = 0
    this.handout = null // what there is to print, while there is one
    this.also = null // a part of it that is wanted
    this.parts = new Map()
    this.script = null
    this.scriptHash = null // of what it was read from
    this.turn = null // the voiced turn that is being listened to
    this.sentReadings = []
    this.returns = 0
    this.offset = 0
    this.exchanges = []
    this.pending = new Map()
    this.setMaxListeners(0)
  }

  // -- coming in --

  redeem(token) {
    return this.#enter((c) => ({
      type: 'redeem', token, key: this.device.key, signature: this.device.sign('redeem', token, c.nonce, 'participant'),
      name: this.name, device: this.deviceName
    }))
  }
  // Resolves at the door, or inside when the key is known.
  knock(code) {
    const tidy = tidyCode(code)
    return this.#enter((c) => ({
      type: 'knock', code: tidy, key: this.device.key, signature: this.device.sign('knock', tidy, c.nonce, 'participant'),
      name: this.name, device: this.deviceName
    }))
  }
  login(group = this.group) {
    this.group = group
    return this.#enter((c) => {
      const m = {
        type: 'login', group: this.group, key: this.device.key, role: this.role,
        signature: this.device.sign('login', this.group, c.nonce, this.role), boardSince: this.boardSince
      }
      if (this.epoch) Object.assign(m, { epoch: this.epoch, lastSeq: this.lastSeq })
      return m
    })
  }

  async #enter(entrance) {
    this.entrance = entrance
    const line = await Line.open(this.where)
    this.line = line
    line.on('text', (m) => this.#onText(m))
    line.on('binary', (b) => this.#onBinary(b))
    line.on('closed', (how) => { if (this.line === line) this.#onClosed(how) })
    const challenge = await line.greet()
    this.challenge = challenge
    const answer = line.next((m) => ['welcome', 'atDoor', 'refused'].includes(m.type))
    line.send(entrance(challenge))
    const m = await answer
    if (m.type === 'refused') {
      this.state = 'gone'
      this.gone = await line.closed
      throw new Refused(m)
    }
    return m
  }

  async #comeBack() {
    for (let longest = 300; this.state !== 'gone'; longest = Math.min(longest * 2, 3000)) {
      await this.network()
      await new Promise((resolve) => setTimeout(resolve, Math.random() * longest))
      if (this.state === 'gone') return
      try {
        if (this.group && this.welcome) await this.login()
        else await this.#enter(this.entrance)
        return
      } catch (error) {
        if (error instanceof Refused && error.code === 'busy') { this.state = 'out'; continue }
        if (error instanceof Refused || error instanceof OtherKey) return this.#leave({ code: this.gone?.code ?? 0, reason: error.message })
      }
    }
  }

  #onClosed(how) {
    this.lastClose = how
    this.line = null
    clearInterval(this.clockTimer)
    const was = this.state
    if (was === 'gone') return
    if (was === 'out') return this.emit('change')
    this.state = 'out'
    if (comeAgain(how)) this.#comeBack()
    else this.#leave(how)
    this.emit('change')
  }

  #leave(how) {
    this.state = 'gone'
    this.gone = how
    clearTimeout(this.readingTimer)
    for (const { reject } of this.pending.values()) reject(new Error(`gone: ${how.code} ${how.reason}`))
    this.pending.clear()
    this.emit('gone', how)
    this.emit('change')
  }

  async bye() {
    const line = this.line
    line.send({ type: 'bye' })
    return line.closed
  }
  // The line is lost without a word, as with a pulled plug.
  cut() { this.line.cut() }

  // -- what comes --

  #onText(m) {
    if (m.type === 'speaking' && m.seq <= this.speakingSeq) return // the one for all, after one's own
    if (['class', 'place', 'board', 'voiceNow', 'speaking', 'handout'].includes(m.type)) {
      if (this.welcome && m.seq <= this.welcome.seq) return
      this.lastSeq = m.seq
    }
    switch (m.type) {
      case 'atDoor':
        this.state = 'door'
        this.atDoor = m
        this.group = m.group
        break
      case 'welcome': this.#onWelcome(m); break
      case 'class': this.#onClass(m); break
      case 'place': this.#onPlace(m); break
      case 'board': this.#onBoard(m.items); break
      case 'voiceNow': this.#onVoice(m); break
      case 'speaking': this.#onSpeaking(m); break
      case 'invitedToSpeak': this.invited = m.on ? m : null; break
      case 'handout': this.handout = m; break
      case 'ack': case 'refused': this.#onAnswer(m); break
      case 'clockAnswer': this.#onClock(m); break
    }
    this.emit(m.type, m)
    this.emit('change')
  }

  #onBinary(bytes) {
    const m = decodeBinary(bytes)
    if (m.type === 'part' && this.asked && m.hash === this.asked && sha256(m.bytes) === m.hash) {
      this.parts.set(m.hash, Buffer.from(m.bytes))
      this.asked = null
      this.#fetch()
    }
    if (m.type === 'sound') {
      m.whose = this.#whose(m.stream)
      if (!m.whose) return
    }
    this.emit(m.type, m)
    this.emit('change')
  }

  // -- voices --

  #onVoice(m) { this.voice = m && m.state !== 'none' ? m : null }
  #onSpeaking(m) {
    if (m) this.speakingSeq = m.seq
    this.speaking = m?.on ? m : null
    if (m?.you) this.invited = null
  }
  #whose(stream) {
    if (this.speaking?.stream === stream) return 'speaker'
    return ['carried', 'muted'].includes(this.voice?.state) && this.voice.stream === stream ? 'leader' : null
  }

  #onWelcome(m) {
    const back = this.welcome !== null
    this.state = 'in'
    this.welcome = m
    this.group = m.group
    this.role = m.role
    this.epoch = m.epoch
    this.lastSeq = m.seq
    this.agreements = new Map(m.agreements.map((a) => [a.kind, a.value]))
    this.#onBoard(m.board)
    this.#onVoice(m.voice)
    this.#onSpeaking(m.speaking)
    this.speakingSeq = m.seq
    this.invited = m.invited ?? null
    this.handout = m.handout ?? null
    this.asked = null
    if (m.open) this.#onClass(m.open)
    else { this.open = null; this.script = null }
    if (m.place) this.#onPlace(m.place)
    else { this.place = null; this.#followTurn() }
    for (const { message } of this.pending.values()) this.line.send(message)
    this.#askClock(4)
    clearInterval(this.clockTimer)
    this.clockTimer = setInterval(() => this.#askClock(1), CLOCK_EVERY)
    if (back) { this.returns += 1; this.emit('back', m) }
  }

  #onClass(m) {
    if (this.open?.class !== m.class) { this.script = null; this.turn = null }
    if (this.handout && this.handout.class !== m.class) this.handout = null
    this.open = m
    this.#fetch()
  }

  #fetch() {
    const wanted = [...(this.open?.parts ?? []), ...(this.also ? [this.also] : [])]
    const missing = wanted.find((hash) => !this.parts.has(hash))
    if (missing && this.asked !== missing) {
      this.asked = missing
      this.line.send({ type: 'partAsk', hash: missing })
    }
    if (!this.open) return
    const [first] = this.open.parts // of a corrected class the script before it serves until this is there
    if ((!this.script || this.scriptHash !== first) && this.parts.has(first)) {
      this.scriptHash = first
      this.script = JSON.parse(this.parts.get(first).toString('utf8'))
      this.#followTurn()
    }
  }

  // The file, when the person wants it; throws when what came is not what was offered.
  async fetchHandout() {
    const { parts, bytes, hash } = this.handout
    const came = []
    for (const part of parts) {
      this.also = part
      this.#fetch()
      await this.until('a part of the handout', (h) => h.parts.has(part))
      came.push(this.parts.get(part))
    }
    const whole = Buffer.concat(came)
    if (whole.length !== bytes || sha256(whole) !== hash || !whole.toString('latin1').startsWith('%PDF-')) {
      throw new Error('not the handout that was offered')
    }
    return whole
  }

  #onBoard(items) {
    for (const item of items) {
      this.board.set(item.item, item)
      this.boardSince = Math.max(this.boardSince, item.change)
    }
  }

  // -- requests: done once, however often the line breaks --

  request(message) {
    const whole = { ...message, id: message.id ?? newId() }
    return new Promise((resolve, reject) => {
      this.pending.set(whole.id, { message: whole, resolve, reject })
      if (this.state === 'in') this.line.send(whole)
    })
  }
  async agree(kind, value) {
    if (['not', 'no', 'nobody'].includes(value)) this.agreements.set(kind, value) // a withdrawal acts here at once
    const answer = await this.request({ type: 'agree', kind, value, wording: 1 })
    this.agreements.set(kind, value)
    this.#followTurn()
    return answer
  }
  #onAnswer(m) {
    const asked = m.id && this.pending.get(m.id)
    if (!asked) return
    if (m.code === 'busy' || m.code === 'store-failed') {
      setTimeout(() => { if (this.state === 'in' && this.pending.has(m.id)) this.line.send(asked.message) }, 100 + Math.random() * 300)
      return
    }
    this.pending.delete(m.id)
    if (m.type === 'ack') asked.resolve(m)
    else asked.reject(new Refused(m))
  }

  // -- the clock --

  #askClock(times) {
    this.clockLeft = times
    this.asking = { sent: (this.asking?.sent ?? 0) + 1, at: this.now() }
    this.line.send({ type: 'clock', sent: this.asking.sent })
  }
  #onClock(m) {
    if (m.sent !== this.asking?.sent) return
    this.exchanges.push(exchange(this.asking.at, m.received, m.answered, this.now()))
    if (this.exchanges.length > 8) this.exchanges.shift()
    this.offset = this.exchanges.reduce((best, e) => (e.delay < best.delay ? e : best)).offset
    if (this.clockLeft > 1) this.#askClock(this.clockLeft - 1)
  }
  relayNow() { return this.now() + this.offset }

  // -- the class --

  #onPlace(m) {
    this.place = m
    this.#followTurn()
  }
  step(place = this.place.place) { return this.script.sections[place.section].steps[place.step] }
  kindOf(place = this.place.place) { return this.step(place).rounds[place.round].turns[place.turn].kind }
  turnLeft() {
    const p = this.place
    return p.phase === 'running' ? p.turnStartedAt + p.turnLength - this.relayNow() : p.turnLength - p.turnSpent
  }

  #elapsed(place) {
    const spent = place.phase === 'running' ? this.relayNow() - place.turnStartedAt : place.turnSpent
    return Math.max(0, Math.min(place.turnLength, Math.round(spent)))
  }

  // Begins, goes on with or finishes listening to a voiced turn.
  #followTurn() {
    const p = this.place
    const was = this.turn
    clearTimeout(this.readingTimer)
    if (was && (!p || p.turnSerial !== was.serial || p.phase === 'ended')) {
      this.turn = null
      this.#finish(was)
    }
    if (!p || !this.script || !this.microphone || p.phase === 'ended' || p.phase === 'notStarted') return
    const kind = this.kindOf()
    if (kind !== 'withMe' && kind !== 'yours') return
    if (this.turn) this.turn.place = p
    else this.turn = { serial: p.turnSerial, kind, place: p }
    if (p.phase === 'running') this.#nextReading()
  }
  #nextReading() {
    this.readingTimer = setTimeout(() => {
      const { turn } = this
      if (!turn) return
      const elapsedMs = this.#elapsed(turn.place)
      if (this.state === 'in' && this.#levelVisible() && elapsedMs < turn.place.turnLength) {
        const reading = { turn: turn.serial, judge: 1, elapsedMs, ...this.microphone(elapsedMs, turn) }
        this.line.sendBinary(encodeReading(reading))
        this.sentReadings.push(reading)
        this.emit('readingSent', reading)
        this.emit('change')
      }
      this.#nextReading()
    }, READING_EVERY)
  }
  #levelVisible() { return (this.agreements.get('level-visible') ?? 'nobody') !== 'nobody' }
  #finish(turn) {
    if (!this.#levelVisible() && this.agreements.get('results-kept') !== 'yes') return
    const elapsedMs = this.#elapsed(turn.place)
    const message = {
      type: 'turnResult', id: newId(), class: turn.place.class, turn: turn.serial, judge: 1, elapsedMs, leakDb: -120,
      roomNormal: true, masked: false, voiceHeard: true, ceiling: 'clear', ...this.microphone(elapsedMs, turn)
    }
    const answer = this.request(message)
    answer.then((ack) => this.emit('resultKept', { message, ack }), (error) => this.emit('resultLost', { message, error }))
      .then(() => this.emit('change'))
    this.emit('resultSent', message)
  }

  // Waits until `test` gives something true. Looks again after everything that happens.
  until(what, test, ms = 6000) {
    return new Promise((resolve, reject) => {
      const stop = () => { clearTimeout(timer); this.off('change', look) }
      const look = () => {
        const found = test(this)
        if (found) { stop(); resolve(found) }
      }
      const timer = setTimeout(() => { stop(); reject(new Error(`waited in vain: ${what}`)) }, ms)
      this.on('change', look)
      look()
    })
  }
}

// RFC 5905 section 8.
export function exchange(t1, t2, t3, t4) {
  return { offset: ((t2 - t1) + (t3 - t4)) / 2, delay: (t4 - t1) - (t3 - t2) }
}
