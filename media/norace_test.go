//go:build !race

package media

const memoryIsWatched = false
