// A relay that restarts, and the end.

import assert from 'node:assert/strict'
import { once } from 'node:events'
import { server as first, leader, leadingTimer, person } from './entering.mjs'
import { contact, contactAck, home, kept, waitForNetwork } from './evening.mjs'
import './sound.mjs'
import { check, cleanUp, deadline, refusal, startRelay } from './stage.mjs'

let server = first

await check('a restart: 1001, a new epoch, and the old answers', async () => {
  const { epoch } = home
  let connect
  waitForNetwork(new Promise((resolve) => { connect = resolve }))
  assert.equal(await first.stop(), 0)
  await home.until('1001', (h) => h.lastClose?.code === 1001)
  server = await startRelay(first.port)
  const back = once(home, 'back')
  connect()
  const [welcome] = await back
  assert.notEqual(welcome.epoch, epoch)
  assert.equal(welcome.person, person)
  assert.deepEqual(await home.request(kept.message), kept.ack)
  assert.deepEqual(await home.request(contact), contactAck)
  assert.equal(await refusal(home.request({ ...contact, where: 'Elsewhere' })), 'conflict')
})
await check('bye', async () => {
  assert.equal((await home.bye()).code, 1000)
  assert.equal((await leader.until('the leader is back', (l) => l.state === 'in' && l.line)).over, undefined)
  assert.equal((await leader.bye()).code, 1000)
  assert.equal(await server.stop(), 0)
})

clearInterval(leadingTimer)
clearTimeout(deadline)
await cleanUp()
process.exit(0)
