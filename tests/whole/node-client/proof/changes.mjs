// The plan changes while it is led: a jump, more time, steps left out, a corrected script.

import assert from 'node:assert/strict'
import { newId, sha256 } from '../device.mjs'
import { Home } from '../home.mjs'
import { leader, made, where } from './entering.mjs'
import { home } from './evening.mjs'
import { hashes, scriptBytes } from './small_class.mjs'
import { check, refusal } from './stage.mjs'
import './words.mjs'

const put = async (script) => {
  const bytes = Buffer.from(JSON.stringify(script))
  await leader.request({ type: 'partPut', hash: sha256(bytes), base64: bytes.toString('base64') })
  return sha256(bytes)
}
const script = JSON.parse(scriptBytes)
script.sections[0].steps[1].dearness = 1 // may be left out
script.sections[0].steps[0].rounds[0].turns[0].ms = 20_000 // time for all of this
const now = { lease: 0, serial: 0 }
const press = async (command, more = {}) => {
  const ack = await leader.request({ type: 'lead', command, ...now, ...more })
  now.serial = ack.serial
  return home.until(`the place after ${command}`, (h) => h.place?.serial >= ack.serial && h.place)
}

await check('a class of which a step may be left out', async () => {
  const first = await put(script)
  const ack = await leader.request({ type: 'openClass', title: 'Changes', parts: [first, hashes[1]] })
  now.lease = ack.lease
  await home.until('the class and its script', (h) => h.open?.class === ack.class && h.script && h.place)
  now.serial = home.place.serial
  assert.equal((await press('start')).phase, 'running')
})
await check('more time adds up, in the same turn', async () => {
  const before = home.place
  await press('stretch', { more: 20_000 })
  const p = await press('stretch', { more: 10_000 })
  assert.equal(p.turnLength, before.turnLength + 30_000)
  assert.equal(p.turnSerial, before.turnSerial)
  assert.equal(p.turnStartedAt, before.turnStartedAt)
  assert.equal(await refusal(press('stretch', { more: 0 })), 'not-now')
})
await check('what is left out is told to all, and only what may be', async () => {
  const p = await press('leaveOut', { leftOut: [{ section: 0, step: 1 }] })
  assert.deepEqual(p.leftOut, [{ section: 0, step: 1 }])
  assert.equal(await refusal(press('leaveOut', { leftOut: [{ section: 1, step: 0 }] })), 'step-unknown')
  const back = await press('leaveOut')
  assert.equal(back.leftOut ?? null, null)
  await press('leaveOut', { leftOut: [{ section: 0, step: 1 }] })
})
await check('a correction reaches the homes in mid-turn, and whoever comes later', async () => {
  const before = home.place
  script.sections[0].steps[0].text = 'One, two, three, four'
  const corrected = await put(script)
  const revise = { type: 'reviseClass', id: newId(), lease: now.lease, revision: before.revision, parts: [corrected, hashes[1]] }
  const ack = await leader.request(revise)
  assert.deepEqual(await leader.request(revise), ack) // asked again, made once
  now.serial = ack.serial
  const p = await home.until('the revision', (h) => h.place.revision === before.revision + 1 && h.place)
  assert.equal(p.turnSerial, before.turnSerial)
  assert.equal(p.turnLength, before.turnLength)
  assert.deepEqual(p.leftOut, before.leftOut)
  await home.until('the new text', (h) => h.step().text === 'One, two, three, four')
  assert.equal(await refusal(leader.request({ ...revise, id: newId(), revision: before.revision - 1, parts: [hashes[0], hashes[1]] })), 'old-revision')
  const other = structuredClone(script)
  other.sections[0].steps[0].rounds[0].turns[0].kind = 'yours'
  const past = await put(other)
  assert.equal(await refusal(leader.request({ ...revise, id: newId(), revision: p.revision, parts: [past] })), 'other-past')
  const late = new Home({ where, name: 'Lena', device: leader.device, role: 'leader' })
  const welcome = await late.login(made.group)
  assert.deepEqual(welcome.open.parts, [corrected, hashes[1]])
  assert.equal(welcome.place.revision, p.revision)
  await late.bye()
  leader.state = 'out'
  leader.gone = null
  await leader.login(made.group)
})
await check('skip strides over what is left out, and a jump takes it in again', async () => {
  const p = await press('skip')
  assert.deepEqual(p.place, { section: 1, step: 0, round: 0, turn: 0 })
  const there = await press('jump', { to: { section: 0, step: 1 } })
  assert.deepEqual(there.place, { section: 0, step: 1, round: 0, turn: 0 })
  assert.equal(there.leftOut ?? null, null)
  assert.equal(await refusal(press('jump', { to: { section: 4, step: 0 } })), 'step-unknown')
  await press('end')
  await home.until('the end', (h) => h.place.phase === 'ended')
})
