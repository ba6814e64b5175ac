// The way to the relay, and coming in.

import assert from 'node:assert/strict'
import { once } from 'node:events'
import { Device } from '../device.mjs'
import { Home } from '../home.mjs'
import { OtherKey, openSocket, parseLink } from '../way.mjs'
import './examples.mjs'
import { hashes, parts } from './small_class.mjs'
import { addGroup, check, refusal, startRelay } from './stage.mjs'

export const server = await check('the relay starts', () => startRelay(0))
export const made = await check('a group is made', () => addGroup(server.port, 'Tuesday voices'))
const way = parseLink(made.link)
export const where = { host: way.host, port: way.port, pin: way.pin }

await check('link with token and pin', () => {
  assert.equal(way.host, '127.0.0.1')
  assert.equal(way.port, server.port)
  assert.match(way.token, /^[0-9a-f]{32}$/)
  assert.match(way.pin, /^[\w-]{43}$/)
  assert.equal(parseLink('voicehall://[::1]/#c=7yg-dym&z=1').code, '7YGDYM')
})
await check('another key is the end', () =>
  assert.rejects(openSocket({ ...where, pin: 'A'.repeat(43) }), OtherKey))

// ---- coming in ----

export const leader = new Home({ where, name: 'Lena', deviceName: 'laptop' })
export const helper = new Home({ where, name: 'Hans', deviceName: 'laptop' })
await check('one-time link lets the leader in', async () => {
  const welcome = await leader.redeem(way.token)
  assert.equal(welcome.role, 'leader')
  assert.equal(welcome.group, made.group)
  assert.equal(welcome.code.replace(/\s/g, ''), made.code.replace(/\s/g, ''))
  assert.equal(welcome.open ?? null, null)
})
await check('the link is good once', async () => {
  const late = new Home({ where, name: 'Late' })
  assert.equal(await refusal(late.redeem(way.token)), 'link-used')
  assert.equal(late.gone.code, 4004)
})
await check('the leader invites a helper', async () => {
  const { token } = await leader.request({ type: 'invite', role: 'moderator' })
  const doors = once(helper, 'door')
  assert.equal((await helper.redeem(token)).role, 'moderator')
  assert.deepEqual((await doors)[0].waiting, [])
})
export const lease = await check('the leader opens a class of parts', async () => {
  for (const [i, bytes] of parts.entries()) {
    await leader.request({ type: 'partPut', hash: hashes[i], base64: bytes.toString('base64') })
  }
  const ack = await leader.request({ type: 'openClass', title: 'Tuesday', parts: hashes })
  await leader.until('class and place', (l) => l.open?.class === ack.class && l.place?.phase === 'notStarted')
  return ack.lease
})
export const leadingTimer = setInterval(() => { if (leader.state === 'in') leader.line.send({ type: 'leading', lease }) }, 1000)
export const press = (command) => leader.request({ type: 'lead', command, lease, serial: leader.place.serial })

export const key = new Device()
const waiting = (name) => helper.until(`${name} at the door`, () => lastDoor?.waiting.find((w) => w.name === name))
let lastDoor = null
helper.prependListener('door', (m) => { lastDoor = m })

export let person = null
export let seat = null
await check('knock, four words, and a helper lets in', async () => {
  const first = new Home({ where, device: key, name: 'Petra', deviceName: 'kitchen' })
  assert.equal((await first.knock(made.code.toLowerCase())).type, 'atDoor')
  assert.equal(first.atDoor.group, made.group)
  assert.equal(first.atDoor.words.length, 4)
  const { door, device } = await waiting('Petra')
  assert.equal(device, 'kitchen')
  assert.deepEqual(lastDoor.words, first.atDoor.words)
  await helper.request({ type: 'letIn', door })
  const welcome = await first.until('welcome', (h) => h.welcome)
  assert.equal(welcome.role, 'participant')
  assert.equal(welcome.code, '')
  assert.equal(welcome.open.class, leader.open.class)
  assert.equal(welcome.place.phase, 'notStarted')
  person = welcome.person
  seat = welcome.seat
  assert.equal((await first.bye()).code, 1000)
})
await check('without a pin the code leads to the door, and one may be turned away', async () => {
  const stranger = new Home({ where: { host: way.host, port: way.port, unchecked: true }, name: 'Stranger' })
  await stranger.knock(made.code)
  assert.equal(stranger.line.pin, way.pin)
  const { door } = await waiting('Stranger')
  await helper.request({ type: 'turnAway', door })
  await stranger.until('turned away', (h) => h.gone)
  assert.equal(stranger.gone.code, 4003)
})
await check('an unknown code and an unknown device are refused', async () => {
  const lost = new Home({ where, name: 'Lost' })
  assert.equal(await refusal(lost.knock('AAAAAA')), 'code-unknown')
  assert.equal(lost.gone.code, 4004)
  const unknown = new Home({ where })
  assert.equal(await refusal(unknown.login(made.group)), 'not-known')
  assert.equal(unknown.gone.code, 4004)
})
