package verbs

import "strconv"

// A spot is a place in an input: a field of an object, or an item of a list,
// below another; nil is the input itself. It is put into words only for an
// error.
type spot struct {
	up    *spot
	name  string // "" for an item of a list
	index int
}

// String writes a spot as "flushes[3].after".
func (s *spot) String() string {
	switch {
	case s == nil:
		return ""
	case s.name == "":
		return s.up.String() + "[" + strconv.Itoa(s.index) + "]"
	}
	return within(s.up.String(), s.name)
}

func within(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
