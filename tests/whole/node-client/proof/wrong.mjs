// Wrong on purpose: what ends a line, what is refused, what is skipped, and that nobody else notices.

import assert from 'node:assert/strict'
import { once } from 'node:events'
import { newId } from '../device.mjs'
import { Home } from '../home.mjs'
import { Line } from '../line.mjs'
import { leader, lease, made, where } from './entering.mjs'
import { home, kept } from './evening.mjs'
import { check, refusal } from './stage.mjs'

export const guest = new Home({ where, name: 'Gast' })
await check('a leader lets in, too', async () => {
  const doors = []
  leader.on('door', (m) => doors.push(...m.waiting))
  await guest.knock(made.code)
  const { door } = await leader.until('Gast', () => doors.find((w) => w.name === 'Gast'))
  await leader.request({ type: 'letIn', door })
  await guest.until('welcome', (h) => h.welcome)
})

const sameLine = home.line
const stillThere = async (who) => {
  const answer = who.line.next((m) => m.type === 'clockAnswer' && m.sent === -7)
  who.line.send({ type: 'clock', sent: -7 })
  await answer
}
const ends = async (line, code) => {
  const how = await line.closed
  assert.equal(how.code, code, `closed with ${how.code} ${how.reason}`)
  await stillThere(home)
  assert.equal(home.line, sameLine)
}

await check('not JSON ends that line alone: 1008', async () => {
  const { line } = guest
  line.sendTextBytes(Buffer.from('{"type":'))
  await ends(line, 1008)
})
await check('a field that is missing: 1008', async () => {
  const line = await Line.open(where)
  line.send({ type: 'hello', min: 1 })
  await ends(line, 1008)
})
await check('a reading of another length: 1008', async () => {
  guest.state = 'out'
  await guest.login()
  const { line } = guest
  line.sendBinary(Buffer.from('01010000', 'hex'))
  await ends(line, 1008)
})
await check('a frame without a mask: 1002', async () => {
  const line = await Line.open(where)
  line.sendRaw(Buffer.from('81027b7d', 'hex'))
  await ends(line, 1002)
})
await check('text that is not UTF-8: 1007', async () => {
  const line = await Line.open(where)
  line.sendTextBytes(Buffer.from('7b22c328227d', 'hex'))
  await ends(line, 1007)
})
await check('too long: 1009', async () => {
  const line = await Line.open(where)
  line.sendTextBytes(Buffer.alloc(4097, 0x20))
  await ends(line, 1009)
})
await check('no version in common: 1008', async () => {
  const line = await Line.open(where)
  line.send({ type: 'hello', min: 2, max: 9, features: [], app: 'of the future' })
  await ends(line, 1008)
})
await check('an unknown text message: unsupported', async () => {
  const answer = once(home, 'unsupported')
  home.line.send({ type: 'juggle', balls: 3 })
  assert.equal((await answer)[0].what, 'juggle')
  await stillThere(home)
})
await check('an unknown binary message and unknown fields are skipped', async () => {
  home.line.sendBinary(Buffer.from('090100', 'hex'))
  await home.request({ type: 'contact', where: 'At home', ring: '', colour: 'blue', nested: { a: [1] } })
  await stillThere(home)
})
await check("another role's message is refused", async () => {
  assert.equal(await refusal(home.request({ type: 'lead', command: 'start', lease, serial: home.place.serial })), 'not-allowed')
  assert.equal(await refusal(home.request({ type: 'notice', text: 'I am the desk' })), 'not-allowed')
  assert.equal(await refusal(leader.request({ ...kept.message, id: newId() })), 'not-allowed')
  await stillThere(home)
})
await check('a role that is not yours is no way in', async () => {
  const riser = new Home({ where, device: guest.device, role: 'leader' })
  assert.equal(await refusal(riser.login(made.group)), 'not-known')
})
