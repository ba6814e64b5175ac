// A home follows the class to its end; its line breaks on the way.

import assert from 'node:assert/strict'
import { once } from 'node:events'
import { newId } from '../device.mjs'
import { Home } from '../home.mjs'
import { comeAgain } from '../line.mjs'
import { helper, key, leader, lease, made, person, press, seat, where } from './entering.mjs'
import { hashes, picture, speaksWell } from './small_class.mjs'
import { check, refusal } from './stage.mjs'

// The home of the evening. Its own clock is more than an hour wrong.
const wrongBy = 4_000_000
let network = Promise.resolve()
export const waitForNetwork = (promise) => { network = promise }
export const home = new Home({ where, device: key, microphone: speaksWell, network: () => network,
  now: () => performance.timeOrigin + performance.now() + wrongBy })
const places = []
home.on('place', (p) => places.push({ ...p, came: home.relayNow() }))
await check('a known device logs in', async () => {
  const welcome = await home.login(made.group)
  assert.equal(welcome.person, person)
  assert.equal(welcome.seat, seat)
  assert.equal(welcome.name, 'Petra')
})
await check('a known key that knocks walks in, and the older line ends', async () => {
  const older = new Home({ where, device: key, name: 'Petra' })
  await older.login(made.group)
  await home.until('4001', (h) => h.gone?.code === 4001)
  assert.equal((await older.knock(made.code)).type, 'welcome')
  await older.bye()
  home.state = 'out'
  home.gone = null
  assert.equal((await home.login()).person, person)
})

// ---- following ----

await check('offset of the clock', async () => {
  await home.until('four exchanges', (h) => h.exchanges.length >= 4)
  // relay times are whole ms, and the clock of performance.now() is not quite that of the day
  const least = Math.min(...home.exchanges.map((e) => e.delay))
  assert.ok(Math.abs(home.offset + wrongBy) <= least / 2 + 20, `${home.offset} with a delay of ${least}`)
})
await check('parts come by their hash', async () => {
  await home.until('both parts', (h) => hashes.every((hash) => h.parts.has(hash)))
  assert.ok(home.parts.get(hashes[1]).equals(picture))
  assert.equal(home.step().text, 'One, two, three')
  const none = once(home, 'refused')
  home.line.send({ type: 'partAsk', hash: 'ab'.repeat(32) })
  assert.equal((await none)[0].code, 'part-unknown')
})
export const contact = { type: 'contact', id: newId(), where: 'At home', ring: 'My daughter' }
export let contactAck = null
await check('agreements are acknowledged', async () => {
  await home.agree('level-visible', 'leader')
  await home.agree('results-kept', 'yes')
  contactAck = await home.request(contact)
  home.line.send({ type: 'today', voice: 'fine', checked: true })
})

const at = (section, step, round, turn) => (h) => h.place?.place.section === section && h.place.place.step === step &&
  h.place.place.round === round && h.place.place.turn === turn && h.place
const levels = []
leader.on('roster', (m) => levels.push(...m.entries.filter((e) => e.seat === seat)))
const results = []
home.on('resultKept', (r) => results.push(r))

await check('the class begins at a press', async () => {
  const { serial } = await press('start')
  const p = await home.until('running', (h) => h.place.phase === 'running' && h.place)
  assert.equal(p.serial, serial)
  assert.equal(p.leaderName, 'Lena')
  assert.equal(p.turnLength, 500)
  assert.ok(p.turnStartedAt < home.relayNow() + 500)
})

// ---- readings and results ----

await check('readings in voiced turns reach the leader', async () => {
  await home.until('with me', at(0, 0, 0, 1))
  const own = await home.until('mine', at(0, 0, 0, 2))
  assert.equal(home.kindOf(), 'yours')
  await home.until('readings', (h) => h.sentReadings.filter((r) => r.turn === own.turnSerial).length >= 3)
  const shown = await leader.until('a level', () => levels.find((e) => e.standing === 'inBand'))
  assert.equal(shown.overUsualDb, 5.2)
})
export const kept = await check('a turn result is acknowledged', async () => {
  const [first, second] = await home.until('two results', () => results.length >= 2 && results)
  assert.ok(first.message.turn < second.message.turn)
  assert.deepEqual(Object.keys(second.ack).sort(), ['id', 'type'])
  return second
})
await check('the same id again: the same answer', async () => assert.deepEqual(await home.request(kept.message), kept.ack))
await check('the same id, another payload: conflict', async () => {
  assert.equal(await refusal(home.request({ ...kept.message, overUsualDb: 6.3 })), 'conflict')
  assert.deepEqual(await home.request(kept.message), kept.ack)
})
await check('a result that cannot be is refused', async () =>
  assert.equal(await refusal(home.request({ ...kept.message, id: newId(), voicedMs: kept.message.heardMs + 1 })), 'result-impossible'))
await check('the leader holds the clock and lets it go on', async () => {
  const before = await home.until('the second round', at(0, 0, 1, 1))
  await leader.until('the second round', at(0, 0, 1, 1))
  await press('wait')
  const held = await home.until('waiting', (h) => h.place.phase === 'waiting' && h.place)
  assert.equal(held.turnSerial, before.turnSerial)
  assert.equal(held.line, 'classWaits')
  assert.equal(home.turnLeft(), held.turnLength - held.turnSpent)
  await press('resume')
  const again = await home.until('running', (h) => h.place.phase === 'running' && h.place)
  assert.equal(again.turnSerial, before.turnSerial)
  assert.ok(again.turnStartedAt >= before.turnStartedAt)
})

// ---- coming back ----

await check('a lost line in mid-turn: snapshot, and on at the right place', async () => {
  await leader.request({ type: 'notice', text: 'Water is in the kitchen' })
  await home.until('the first notice', (h) => h.board.size === 1)
  const turn = await home.until('the picture', at(0, 1, 0, 1))
  await home.until('a reading of it', (h) => h.sentReadings.some((r) => r.turn === turn.turnSerial))
  const { epoch, boardSince } = home
  let connect
  network = new Promise((resolve) => { connect = resolve })
  const asked = home.request({ type: 'write', text: 'A red dot' })
  home.cut()
  await home.until('the loss', (h) => h.lastClose?.code === 1006)
  assert.ok(comeAgain(home.lastClose))
  const item = (await leader.request({ type: 'notice', text: 'Look at it once more' })).item
  const sentBefore = home.sentReadings.length
  connect()
  const [welcome] = await once(home, 'back')
  assert.equal(welcome.epoch, epoch)
  assert.deepEqual(welcome.board.map((b) => b.item), [item])
  assert.ok(welcome.board[0].change > boardSince)
  assert.equal(welcome.place.turnSerial, turn.turnSerial)
  assert.equal(welcome.place.turnStartedAt, turn.turnStartedAt)
  assert.deepEqual(welcome.open.parts, hashes)
  assert.equal(home.agreements.get('level-visible'), 'leader')
  const next = await home.until('a reading after it', (h) => h.sentReadings[sentBefore])
  assert.equal(next.turn, turn.turnSerial)
  assert.ok(next.elapsedMs > home.sentReadings[sentBefore - 1].elapsedMs)
  assert.ok((await asked).item > 0)
})
await check('what was not acknowledged was done once', async () => {
  const held = []
  const whole = new Home({ where, device: helper.device, role: 'moderator' })
  whole.on('onDesk', (m) => held.push(...m.items))
  await whole.login(made.group) // takes the place of the helper's line, and gets the whole list
  await helper.until('4001', (h) => h.gone?.code === 4001)
  await whole.until('the lines', () => held.length > 0)
  assert.deepEqual(held.map((l) => [l.text, l.state]), [['A red dot', 'held']])
  const shown = whole.request({ type: 'decide', item: held[0].item, change: held[0].change, decision: 'show' })
  await home.until('the line on the board', (h) => h.board.get(held[0].item)?.text === 'A red dot')
  await shown
  await whole.bye()
})
await check('the turn that was interrupted ends with a result, too', async () => {
  const result = await home.until('its result', () => results.find((r) => r.message.elapsedMs === 4000))
  assert.deepEqual(await home.request(result.message), result.ack)
})
await check('the leader goes on', async () => {
  await home.until('the long turn', at(0, 1, 1, 0))
  await leader.until('the long turn', at(0, 1, 1, 0))
  // a press on the place of just before the clock's own step means where the class is now: nothing more moves
  const here = leader.place.serial
  const late = await leader.request({ type: 'lead', command: 'goOn', lease, serial: places.at(-2).serial })
  assert.equal(late.serial, here)
  assert.equal(leader.place.serial, here)
  const moved = await press('goOn')
  const p = await home.until('the closing', at(1, 0, 0, 0))
  assert.equal(p.serial, moved.serial)
  assert.equal(await refusal(leader.request({ type: 'lead', command: 'goOn', lease: lease + 1, serial: p.serial })), 'old-lease')
})
export const summary = await check('the class ends by itself, and the leader gets the summary', async () => {
  const [summary] = await once(leader, 'summary')
  await home.until('the end', (h) => h.place.phase === 'ended')
  assert.ok(summary.came >= 1)
  assert.ok(summary.easyTurns >= 1)
  return summary
})
await check('every turn was heard of, in order and in time', () => {
  const running = places.filter((p) => p.phase === 'running')
  const seen = [...new Set(running.map((p) => Object.values(p.place).join('.')))]
  assert.deepEqual(seen, ['0.0.0.0', '0.0.0.1', '0.0.0.2', '0.0.1.0', '0.0.1.1', '0.1.0.0', '0.1.0.1', '0.1.1.0', '1.0.0.0'])
  for (const [i, p] of places.entries()) {
    if (i === 0) continue
    const before = places[i - 1]
    assert.ok(p.seq > before.seq && p.serial > before.serial && p.turnSerial >= before.turnSerial)
    const natural = before.phase === 'running' && p.phase === 'running' && p.turnSerial !== before.turnSerial && before.turnLength < 60_000
    if (!natural) continue
    assert.equal(p.turnStartedAt, before.turnStartedAt + before.turnLength)
    assert.ok(p.came > p.turnStartedAt - 400, `turn ${p.turnSerial} came too early`)
  }
})
