// What came later, or was not tried at first: a late result, hellos, private words, a call taken back, a second device,
// a stand-in who takes the place.

import assert from 'node:assert/strict'
import { once } from 'node:events'
import { encodeReading } from '../binary.mjs'
import { newId, sha256 } from '../device.mjs'
import { Home } from '../home.mjs'
import { key, leader, made, person, where } from './entering.mjs'
import { home, kept, summary } from './evening.mjs'
import { hashes } from './small_class.mjs'
import { check, refusal } from './stage.mjs'
import { guest } from './wrong.mjs'

const sees = (who, type, test) => new Promise((resolve) => {
  const look = (m) => { if (test(m)) { who.off(type, look); resolve(m) } }
  who.on(type, look)
})

await check('a result after the end is judged, and the summary comes again', async () => {
  guest.state = 'out'
  await guest.login()
  await guest.agree('level-visible', 'leader')
  const again = once(leader, 'summary')
  await guest.request({ ...kept.message, id: newId() })
  assert.equal((await again)[0].judgedTurns, summary.judgedTurns + 1)
  await guest.request({ ...kept.message, id: newId(), class: newId() }) // of a class that is not known: not used
})

await check('a hello is counted once, and no more once it is taken back', async () => {
  const ack = await leader.request({ type: 'openClass', title: 'Once more', parts: hashes })
  await home.until('the second class', (h) => h.open?.class === ack.class)
  for (const [on, hellos] of [[true, 1], [false, 0], [true, 1]]) {
    const counted = sees(leader, 'here', (m) => m.hellos === hellos)
    home.line.send({ type: 'greet', on })
    home.line.send({ type: 'greet', on })
    await counted
  }
})

export const paper = Buffer.concat([Buffer.from('%PDF-1.4\n'), Buffer.alloc(200_000, 'large print ')])
await check('the handout is offered, and comes whole', async () => {
  const pieces = [paper.subarray(0, 150_000), paper.subarray(150_000)]
  for (const bytes of pieces) {
    await leader.request({ type: 'partPut', hash: sha256(bytes), base64: bytes.toString('base64') })
  }
  const offer = { type: 'offerHandout', class: leader.open.class, bytes: paper.length, hash: sha256(paper), parts: pieces.map(sha256) }
  assert.equal(await refusal(leader.request({ ...offer, bytes: 7 })), 'handout-unfit')
  assert.equal(await refusal(home.request(offer)), 'not-allowed')
  await leader.request(offer)
  await home.until('the handout', (h) => h.handout?.hash === offer.hash)
  assert.equal(home.handout.title, 'Once more')
  assert.ok((await home.fetchHandout()).equals(paper))
})

const tell = (whom, kind) => leader.request({ type: 'privateWord', person: whom, kind, text: 'That was easy to hear' })

await check('a private word comes within the agreement and not beyond it', async () => {
  assert.equal(await refusal(tell(person, 'kind')), 'not-agreed')
  const known = sees(leader, 'seats', (m) => m.seats.some((s) => s.person === person && s.addressed === 'kind'))
  await home.agree('addressed', 'kind')
  await known
  const heard = once(home, 'word')
  await tell(person, 'kind')
  const [{ kind, from, text }] = await heard
  assert.deepEqual({ kind, from, text }, { kind: 'kind', from: 'Lena', text: 'That was easy to hear' })
  assert.equal(await refusal(tell(person, 'prompt')), 'not-agreed')
  await guest.agree('addressed', 'prompts')
  await tell(guest.welcome.person, 'prompt')
  await guest.bye()
  assert.equal(await refusal(tell(guest.welcome.person, 'prompt')), 'not-here')
})

await check('a missing name is the person\'s to mend, a reading that cannot be is not', async () => {
  const nameless = new Home({ where })
  assert.equal(await refusal(nameless.knock(made.code)), 'name-empty')
  assert.equal(nameless.gone.code, 4004)
  guest.state = 'out'
  await guest.login()
  const { line } = guest
  line.sendBinary(encodeReading({ turn: 1, voicedMs: 0, heardMs: 200, elapsedMs: 100, overUsualDb: 0, nowOverUsualDb: 0,
    trustPercent: 100, reason: 'none', judge: 1 }))
  assert.equal((await line.closed).code, 1008)
})

await check('a call for help is taken back by whoever made it', async () => {
  const called = sees(leader, 'calls', (m) => m.calls.some((c) => c.person === person && !c.done))
  const { item } = await home.request({ type: 'helpCall' })
  assert.equal((await called).calls[0].where, undefined)
  assert.equal((await home.request({ type: 'helpCall' })).item, item)
  const done = sees(leader, 'calls', (m) => m.calls.some((c) => c.call === item && c.done))
  const status = sees(home, 'callStatus', (m) => m.call === item && m.done)
  await home.request({ type: 'helpTakeBack', call: item })
  await Promise.all([done, status])
  assert.equal(await refusal(home.request({ type: 'helpTakeBack', call: item })), 'call-unknown')
})

await check('a second device is the same person, and is taken away again', async () => {
  const { token } = await home.request({ type: 'secondDevice' })
  const tablet = new Home({ where, name: 'Somebody', deviceName: 'tablet' })
  const welcome = await tablet.redeem(token)
  assert.equal(welcome.person, person)
  assert.equal(welcome.name, 'Petra')
  assert.equal(welcome.saidHello, true)
  await home.until('4001', (h) => h.gone?.code === 4001)
  const list = once(tablet, 'devices')
  tablet.line.send({ type: 'devicesAsk' })
  assert.deepEqual((await list)[0].devices.map((d) => d.label).sort(), ['kitchen', 'tablet'])
  home.state = 'out'
  home.gone = null
  await home.login()
  await home.request({ type: 'revokeDevice', key: tablet.device.key })
  tablet.state = 'out'
  assert.equal(await refusal(tablet.login()), 'not-known')
  assert.equal(home.device, key)
})

await check('a stand-in takes the place once the leader is silent, and the leader takes it back', async () => {
  const { token } = await leader.request({ type: 'invite', role: 'standIn' })
  const standIn = new Home({ where, name: 'Stella' })
  assert.equal((await standIn.redeem(token)).role, 'standIn')
  assert.equal(await refusal(standIn.request({ type: 'takePlace' })), 'not-now')
  const silent = sees(standIn, 'lease', (m) => m.silent && !m.mine)
  await leader.bye()
  await silent
  const { lease, serial } = await standIn.request({ type: 'takePlace' })
  await standIn.request({ type: 'lead', command: 'start', lease, serial })
  await home.until('the stand-in leads', (h) => h.place.line === 'standInLeads' && h.place.leaderName === 'Stella')
  leader.state = 'out'
  await leader.login(made.group)
  const mine = await leader.request({ type: 'takePlace' })
  assert.equal(mine.lease, lease + 1)
  assert.equal(await refusal(standIn.request({ type: 'lead', command: 'goOn', lease, serial: mine.serial })), 'not-leader')
  const taken = await home.until('the leader leads again', (h) => h.place.lease === mine.lease && h.place)
  await leader.request({ type: 'lead', command: 'end', lease: mine.lease, serial: taken.serial })
  await home.until('the end', (h) => h.place.phase === 'ended')
  await standIn.bye()
})
