//go:build race

package media

// The race detector keeps notes on all memory, several times its size, so what a
// process took says nothing.
const memoryIsWatched = true
