// The binary messages.

const REASONS = ['none', 'noSignal', 'clipping', 'roomTooNoisy', 'loudspeakerTooLoud', 'alteredByComputer', 'somebodyElse', 'setupChanged']
const STANDINGS = ['notYet', 'inBand', 'below', 'above', 'straining', 'noVoice', 'cantTell', 'resting', 'private', 'away']

export function encodeReading(r) {
  const b = Buffer.alloc(26)
  b.set([1, 1, 0])
  b.writeUInt32BE(r.turn, 3)
  b.writeUInt32BE(r.voicedMs, 7)
  b.writeUInt32BE(r.heardMs, 11)
  b.writeUInt32BE(r.elapsedMs, 15)
  b.writeInt16BE(Math.round(r.overUsualDb * 10), 19)
  b.writeInt16BE(Math.round(r.nowOverUsualDb * 10), 21)
  b[23] = r.trustPercent
  b[24] = REASONS.indexOf(r.reason)
  b[25] = r.judge
  return b
}

// `sample`: of the first sample, at 48 kHz. `frame`: one Opus frame of 20 ms.
export function encodeSound({ stream, sample, frame }) {
  const b = Buffer.alloc(15)
  b.set([2, 1, 0])
  b.writeUInt32BE(stream, 3)
  b.writeBigUInt64BE(BigInt(sample), 7)
  return Buffer.concat([b, frame])
}

export function decodeBinary(b) {
  if (b.length < 3 || b[1] !== 1) return { type: 'unknown' }
  if (b[0] === 2 && b.length >= 16) {
    return { type: 'sound', stream: b.readUInt32BE(3), sample: b.readBigUInt64BE(7), frame: b.subarray(15) }
  }
  if (b[0] === 3 && b.length >= 35) return { type: 'part', hash: b.subarray(3, 35).toString('hex'), bytes: b.subarray(35) }
  if (b[0] === 4 && (b.length - 3) % 7 === 0) {
    const entries = []
    for (let at = 3; at < b.length; at += 7) {
      const flags = b[at + 4]
      entries.push({
        seat: b.readUInt16BE(at), standing: STANDINGS[b[at + 2]], reason: REASONS[b[at + 3]], voiceNow: (flags & 2) !== 0,
        overUsualDb: flags & 1 ? b.readInt16BE(at + 5) / 10 : null
      })
    }
    return { type: 'roster', whole: (b[2] & 1) === 1, entries }
  }
  return { type: 'unknown' }
}
