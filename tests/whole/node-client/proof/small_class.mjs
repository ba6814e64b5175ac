// A small class: half a minute, one picture. And a microphone before which somebody speaks well.

import { sha256 } from '../device.mjs'

export const picture = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==', 'base64')
const turns = (...list) => list.map(([kind, ms]) => ({ kind, ms }))
export const scriptBytes = Buffer.from(JSON.stringify({
  title: 'A short evening', theme: 'Counting', language: 'en', minutes: 1,
  sections: [
    {
      kind: 'counting', title: 'Counting', steps: [
        {
          text: 'One, two, three', stretches: [], note: '', rounds: [
            { moreVoice: false, turns: turns(['listen', 500], ['withMe', 1200], ['yours', 2000]) },
            { moreVoice: true, turns: turns(['listen', 500], ['yours', 2000]) }
          ]
        },
        {
          text: 'What do you see?', stretches: [], note: 'Let them look first.',
          picture: { file: 'dot.png', description: 'A dot' }, rounds: [
            { moreVoice: false, turns: turns(['ready', 500], ['yours', 4000]) },
            { moreVoice: false, turns: turns(['yours', 60_000]) }
          ]
        }
      ]
    },
    { kind: 'closing', title: 'Goodbye', steps: [{ text: 'Until next week', stretches: [], note: '', rounds: [
      { moreVoice: false, turns: turns(['listen', 500]) }] }] }
  ]
}))
export const parts = [scriptBytes, picture]
export const hashes = parts.map(sha256)

// Somebody who speaks well all through the turn, at 5.2 dB over usual.
export const speaksWell = (elapsedMs) => ({
  heardMs: elapsedMs, voicedMs: elapsedMs, overUsualDb: 5.2, nowOverUsualDb: 4.1, trustPercent: 97, reason: 'none'
})
