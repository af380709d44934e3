package strict

// maxDepth is the deepest nesting of brackets, and the longest dotted key, that is
// read; a scenario takes four.
const maxDepth = 32

// tooDeep looks for brackets nested deeper than maxDepth, or a longer dotted key,
// and returns the byte offset. It runs before the decoder, whose time grows faster
// than the square of the depth. Strings and comments are passed over.
func tooDeep(text string) (at int, deep bool) {
	s := scanner{text: text}
	open, dots := 0, 0
	for s.at < len(text) {
		switch text[s.at] {
		case '"', '\'':
			s.quoted()
			continue
		case '#':
			s.until("\n")
			continue
		case '[', '{':
			open, dots = open+1, 0
		case ']', '}':
			open, dots = max(open-1, 0), 0
		case '=', ',', '\n':
			dots = 0
		case '.':
			dots++
		}
		if open > maxDepth || dots > maxDepth {
			return s.at, true
		}
		s.at++
	}
	return 0, false
}
