package change

import "time"

// A Clock makes a device's stamps: each greater than every stamp it made or
// saw, however the wall clock jumps. Last is to be kept across restarts. A Clock
// is not for concurrent use.
type Clock struct {
	Device string
	Last   Stamp
}

// Next gives a new stamp for the wall-clock time now.
func (c *Clock) Next(now time.Time) Stamp {
	stamp := MakeStamp(now, 0, c.Device)
	if c.Last != "" && stamp[:deviceAt] <= c.Last[:deviceAt] {
		stamp = c.Last.next(c.Device)
	}
	c.Last = stamp
	return stamp
}

// See takes note of another's stamp, so that Next goes beyond it.
func (c *Clock) See(stamp Stamp) { c.Last = max(c.Last, stamp) }
