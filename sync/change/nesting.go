package change

// nesting is how many levels of lists and objects valid JSON has; 0 for a text,
// number or word.
func nesting(value []byte) int {
	deepest, level, inText := 0, 0, false
	for i := 0; i < len(value); i++ {
		switch c := value[i]; {
		case inText && c == '\\':
			i++ // what follows is no end of the text
		case c == '"':
			inText = !inText
		case inText:
		case c == '[' || c == '{':
			level++
			deepest = max(deepest, level)
		case c == ']' || c == '}':
			level--
		}
	}
	return deepest
}
