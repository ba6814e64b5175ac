// The document's own examples.

import assert from 'node:assert/strict'
import { decodeBinary, encodeReading, encodeSound } from '../binary.mjs'
import { Device, sha256 } from '../device.mjs'
import { exchange } from '../home.mjs'
import { check } from './stage.mjs'

await check('signature of the worked example', () => {
  const device = Device.fromSeed('9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60')
  assert.equal(device.key, 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a')
  const counted = (n) => Buffer.from(Array.from({ length: n }, (_, i) => i)).toString('hex')
  assert.equal(device.sign('login', counted(16), counted(32), 'participant'),
    'fd57effa24e80f61097fe40bf9ea38e94d57ede117adcf6b3d90f622e4c6cfbf' +
    'c9b7f1efdc46aaafb1da1e8d5ee08e234090972606139910b0b30b3ae5b0010a')
})
await check('binary messages of the examples', () => {
  assert.equal(encodeReading({ turn: 0x01020304, voicedMs: 2000, heardMs: 2500, elapsedMs: 4000, overUsualDb: 4.2, nowOverUsualDb: -1.5,
    trustPercent: 80, reason: 'clipping', judge: 1 }).toString('hex'), '01010001020304000007d0000009c400000fa0002afff1500201')
  const sound = encodeSound({ stream: 5, sample: 2_880_000, frame: Buffer.from([9, 8, 7]) })
  assert.equal(sound.toString('hex'), '0201000000000500000000002bf200090807')
  assert.equal(decodeBinary(sound).sample, 2_880_000n)
  const part = decodeBinary(Buffer.from(`030100${sha256('abc')}616263`, 'hex'))
  assert.equal(part.hash, sha256(part.bytes))
  assert.deepEqual(decodeBinary(Buffer.from('04010100030100' + '03002a', 'hex')),
    { type: 'roster', whole: true, entries: [{ seat: 3, standing: 'inBand', reason: 'none', voiceNow: true, overUsualDb: 4.2 }] })
})
await check('clock of the example', () => assert.deepEqual(exchange(1000, 1270, 1275, 1065), { offset: 240, delay: 60 }))
