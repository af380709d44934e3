package scenarios

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
)

const byteOrderMark = "\ufeff"

// renamedIn replaces names where they stand as values of certain keys.
func renamedIn(text []byte, names map[string]string, keys ...string) []byte {
	return rewritten(text, func(value string) (string, bool) {
		other, ok := names[value]
		return other, ok
	}, keys...)
}

// rewritten replaces strings of a TOML text that are the values of certain keys, at whatever depth, or stand in
// their lists. All else stays as it is, comments too.
func rewritten(text []byte, replace func(value string) (string, bool), keys ...string) []byte {
	var out bytes.Buffer
	key := "" // the last one, which the values after it belong to
	for i := 0; i < len(text); {
		length := tokenLength(text[i:])
		token := text[i : i+length]
		i += length
		if token[0] == '#' || !isKeyOrString(token[0]) {
			out.Write(token)
			continue
		}
		value, isString := unquotedTOML(token)
		if follows := bytes.TrimLeft(text[i:], " \t"); len(follows) > 0 && (follows[0] == '=' || follows[0] == '.') {
			key = value
		} else if other, ok := replace(value); ok && isString && slices.Contains(keys, key) {
			out.WriteString(quoted(other))
			continue
		}
		out.Write(token)
	}
	return out.Bytes()
}

// tokenLength is that of the comment, the string or the bare word at the beginning of a text, or 1.
func tokenLength(text []byte) int {
	switch c := text[0]; {
	case c == '#':
		if end := bytes.IndexByte(text, '\n'); end >= 0 {
			return end
		}
		return len(text)
	case c == '"' || c == '\'':
		return stringLength(text, c)
	case isBare(c):
		n := 1
		for n < len(text) && isBare(text[n]) {
			n++
		}
		return n
	}
	return 1
}

// stringLength is that of the string at the beginning of a text, with its quotes.
func stringLength(text []byte, quote byte) int {
	ends := string(quote)
	if three := strings.Repeat(ends, 3); bytes.HasPrefix(text, []byte(three)) {
		ends = three
	}
	for i := len(ends); i < len(text); i++ {
		switch {
		case quote == '"' && text[i] == '\\':
			i++
		case bytes.HasPrefix(text[i:], []byte(ends)):
			i += len(ends)
			for len(ends) == 3 && i < len(text) && text[i] == quote { // up to two quotes may stand before the last three
				i++
			}
			return i
		}
	}
	return len(text)
}

func isBare(c byte) bool {
	return c == '_' || c == '-' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

func isKeyOrString(c byte) bool { return c == '"' || c == '\'' || isBare(c) }

// unquotedTOML is what a string, or a bare word, says.
func unquotedTOML(token []byte) (value string, isString bool) {
	switch {
	case token[0] == '\'':
		return strings.Trim(string(token), "'"), true
	case token[0] != '"':
		return string(token), false
	}
	inside := strings.Trim(string(token), "\"")
	if value, err := strconv.Unquote(`"` + inside + `"`); err == nil {
		return value, true
	}
	return inside, true
}
