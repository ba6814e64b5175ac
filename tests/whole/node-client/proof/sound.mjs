// Whose voice everybody hears: the leader's as she says it comes, and one invited person's.

import assert from 'node:assert/strict'
import { encodeSound } from '../binary.mjs'
import { Home } from '../home.mjs'
import { leader, made, where } from './entering.mjs'
import { home } from './evening.mjs'
import { hashes } from './small_class.mjs'
import { check, refusal } from './stage.mjs'
import './changes.mjs'

const frame = Buffer.from([0xf8, 0xff, 0xfe]) // stands for a frame; the relay does not look into it
const sends = (who, stream, number) => who.line.sendBinary(encodeSound({ stream, sample: number * 960, frame }))
const heard = [] // in order: sound and places, as the home had them
home.on('sound', (m) => heard.push(`${m.whose} ${m.sample / 960n}`))
home.on('place', () => heard.push('place'))
const hears = (what) => home.until(what, () => heard.includes(what))
const isHome = home.welcome.person

let lease = 0
await check('the voice comes as the leader says, places among it, and nothing else', async () => {
  const ack = await leader.request({ type: 'openClass', title: 'Heard', parts: hashes })
  lease = ack.lease
  await home.until('the class', (h) => h.open?.class === ack.class && h.place?.class === ack.class)
  assert.equal(home.handout, null) // that of the class before is gone
  heard.length = 0
  sends(leader, 11, 0) // before she has said what it is
  sends(home, 12, 0) // not invited: dropped, and the line stays up
  leader.line.send({ type: 'voice', state: 'carried', stream: 11 })
  sends(leader, 11, 1)
  leader.line.send({ type: 'lead', id: 'ab'.repeat(16), command: 'start', lease, serial: leader.place.serial })
  sends(leader, 11, 2)
  await hears('leader 2')
  assert.deepEqual(heard.slice(0, 3), ['leader 1', 'place', 'leader 2'])
  assert.deepEqual({ state: home.voice.state, stream: home.voice.stream, name: home.voice.name },
    { state: 'carried', stream: 11, name: 'Lena' })
  leader.line.send({ type: 'voice', state: 'elsewhere', stream: 0 })
  await home.until('elsewhere', (h) => h.voice.state === 'elsewhere')
  leader.line.send({ type: 'voice', state: 'carried', stream: 11 })
  await home.until('again', (h) => h.voice.state === 'carried')
})

const guest = new Home({ where, name: 'Gina' })
await check('one person is asked, agrees, and is heard by all until they end it', async () => {
  const { token } = await leader.request({ type: 'invite', role: 'participant' })
  await guest.redeem(token)
  assert.equal(guest.welcome.voice.state, 'carried') // whoever comes late knows
  assert.equal(await refusal(guest.request({ type: 'speakAnswer', agree: true, stream: 12 })), 'not-invited')
  await leader.request({ type: 'inviteToSpeak', person: guest.welcome.person })
  assert.equal((await guest.until('the question', (g) => g.invited)).from, 'Lena')
  assert.equal(await refusal(leader.request({ type: 'inviteToSpeak', person: isHome })), 'one-at-a-time')
  assert.equal(await refusal(guest.request({ type: 'speakAnswer', agree: true, stream: 11 })), 'stream-in-use')
  await guest.request({ type: 'speakAnswer', agree: true, stream: 12 })
  assert.equal(guest.speaking.you, true)
  assert.equal(guest.invited, null)
  sends(guest, 12, 5)
  await hears('speaker 5')
  assert.equal(home.speaking.you, false)
  assert.equal(home.speaking.name, '') // she did not agree to that
  assert.equal(leader.speaking.name, 'Gina')
  assert.equal(leader.speaking.seat, guest.welcome.seat)
  let over = null
  leader.on('inviteOver', (m) => { over = m })
  await guest.request({ type: 'endSpeaking' })
  await home.until('the end of it', (h) => h.speaking === null)
  assert.equal((await leader.until('she is told', () => over)).why, 'ended')
  sends(guest, 12, 6) // too late: dropped
  sends(leader, 11, 7)
  await hears('leader 7')
  assert.ok(!heard.includes('speaker 6'))
})

await check('a question is declined, taken back, and gone with the line', async () => {
  const ends = []
  leader.on('inviteOver', (m) => ends.push(m.why))
  const ask = () => leader.request({ type: 'inviteToSpeak', person: guest.welcome.person })
  await ask()
  await guest.until('the question', (g) => g.invited)
  await guest.request({ type: 'speakAnswer', agree: false, stream: 0 })
  guest.invited = null
  await leader.until('declined', () => ends[0] === 'notNow')
  await ask()
  await guest.until('the question', (g) => g.invited)
  await leader.request({ type: 'endSpeaking' })
  await guest.until('taken back', (g) => g.invited === null)
  await ask()
  await guest.request({ type: 'speakAnswer', agree: true, stream: 13 })
  await home.until('heard', (h) => h.speaking?.stream === 13)
  await guest.bye()
  await home.until('gone', (h) => h.speaking === null)
  await leader.until('told', () => ends.at(-1) === 'lineLost')
})

await check('the voice is gone with the leader\'s line, and with the class', async () => {
  await leader.bye()
  await home.until('no voice', (h) => h.voice === null)
  leader.state = 'out'
  await leader.login(made.group)
  leader.line.send({ type: 'voice', state: 'muted', stream: 11 })
  await home.until('muted', (h) => h.voice?.state === 'muted')
  await leader.request({ type: 'lead', command: 'end', lease, serial: leader.place.serial })
  await home.until('the end', (h) => h.place.phase === 'ended' && h.voice === null)
})
