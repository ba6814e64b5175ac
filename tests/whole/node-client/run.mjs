// The whole of a home's evening against a real relay:  node run.mjs PATH-OF-RELAY
// One line `ok NAME` for each promise of the protocol; 0 at the end, or what failed and 1.
// Each scene imports the one before it: examples, entering, evening, wrong, words, changes, sound, restart.

import './proof/restart.mjs'
