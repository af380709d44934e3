package strict

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// positions maps the full path of every key and array element to its line, for
// a text that is known to be valid TOML (the decoder has accepted it). On an
// invalid text it still ends, with whatever it found.
func positions(text string) map[string]int {
	s := scanner{text: text, lines: map[string]int{}, counts: map[string]int{}}
	for i := range len(text) {
		if text[i] == '\n' {
			s.newlines = append(s.newlines, i)
		}
	}
	s.scan()
	return s.lines
}

// Rewritten replaces texts in a TOML text that are the values of keys, at whatever depth, or stand in their lists: replace gives, for the last part of the key
// and what the text says, what stands in its place in TOML. All else stays as it is, comments too.
func Rewritten(text []byte, replace func(key, value string) (string, bool)) []byte {
	var out bytes.Buffer
	done := 0
	s := scanner{text: string(text), lines: map[string]int{}, counts: map[string]int{}}
	s.found = func(start, end int) {
		var one struct{ Value string }
		if _, err := toml.Decode("Value = "+s.text[start:end], &one); err != nil {
			return
		}
		if other, ok := replace(s.key, one.Value); ok {
			out.Write(text[done:start])
			out.WriteString(other)
			done = end
		}
	}
	s.scan()
	out.Write(text[done:])
	return out.Bytes()
}

// scan goes through the whole text.
func (s *scanner) scan() {
	s.at = len(s.text) - len(strings.TrimPrefix(s.text, "\ufeff"))
	prefix := ""
	for s.blank(""); s.at < len(s.text); s.blank("") {
		if s.text[s.at] == '[' {
			prefix = s.header()
		} else {
			s.assignment(prefix)
		}
	}
}

type scanner struct {
	text     string
	at       int // byte offset
	newlines []int
	lines    map[string]int       // path -> line
	counts   map[string]int       // path of an array of tables -> elements so far
	key      string               // the last part of the last key, which the values after it belong to
	found    func(start, end int) // called for each text that is a value; nil for nobody
}

func (s *scanner) mark(path string, at int) {
	if _, known := s.lines[path]; !known {
		below, _ := slices.BinarySearch(s.newlines, at)
		s.lines[path] = below + 1
	}
}

// blank skips white space, line ends, comments and the extra characters.
func (s *scanner) blank(extra string) {
	for s.at < len(s.text) {
		switch c := s.text[s.at]; {
		case strings.IndexByte(" \t\r\n", c) >= 0 || strings.IndexByte(extra, c) >= 0:
			s.at++
		case c == '#':
			s.until("\n")
		default:
			return
		}
	}
}

// until moves to the next byte out of stops, or to the end.
func (s *scanner) until(stops string) {
	if n := strings.IndexAny(s.text[s.at:], stops); n >= 0 {
		s.at += n
		return
	}
	s.at = len(s.text)
}

// header reads [a.b] or [[a.b]] and returns the path the following keys belong to.
func (s *scanner) header() string {
	start, array := s.at, strings.HasPrefix(s.text[s.at:], "[[")
	s.at++
	if array {
		s.at++
	}
	keys, path := s.keys(), ""
	for i, key := range keys {
		path = join(path, key)
		s.mark(path, start)
		if array && i == len(keys)-1 {
			s.counts[path]++
		}
		if n := s.counts[path]; n > 0 {
			path = element(path, n)
			s.mark(path, start)
		}
	}
	s.until("\n")
	return path
}

func (s *scanner) assignment(prefix string) {
	start, path := s.at, prefix
	for _, key := range s.keys() {
		path, s.key = join(path, key), key
		s.mark(path, start)
	}
	if s.at < len(s.text) && s.text[s.at] == '=' {
		s.at++
		s.value(path)
	}
	if s.at == start {
		s.at++ // invalid text: move on
	}
}

// keys reads a dotted key, bare or quoted.
func (s *scanner) keys() []string {
	var keys []string
	for {
		s.spaces()
		if s.at >= len(s.text) {
			return keys
		}
		start := s.at
		switch s.text[s.at] {
		case '"', '\'':
			s.quoted()
			keys = append(keys, unquoted(s.text[start:s.at]))
		default:
			s.until(" \t.=]\r\n")
			keys = append(keys, s.text[start:s.at])
		}
		s.spaces()
		if s.at >= len(s.text) || s.text[s.at] != '.' {
			return keys
		}
		s.at++
	}
}

// unquoted returns the key that a quoted key means; escapes are left to the decoder.
func unquoted(raw string) string {
	var one struct{ Key string }
	if raw[0] == '"' && strings.Contains(raw, `\`) {
		if _, err := toml.Decode("Key = "+raw, &one); err == nil {
			return one.Key
		}
	}
	return strings.TrimSuffix(raw[1:], raw[:1])
}

func (s *scanner) spaces() {
	for s.at < len(s.text) && (s.text[s.at] == ' ' || s.text[s.at] == '\t') {
		s.at++
	}
}

func (s *scanner) value(path string) {
	s.spaces()
	if s.at >= len(s.text) {
		return
	}
	switch s.text[s.at] {
	case '"', '\'':
		start := s.at
		if s.quoted(); s.found != nil {
			s.found(start, s.at)
		}
	case '{':
		s.at++
		for s.blank(","); s.at < len(s.text) && s.text[s.at] != '}'; s.blank(",") {
			s.assignment(path)
		}
		s.at = min(s.at+1, len(s.text))
	case '[':
		s.at++
		n := 0
		for s.blank(","); s.at < len(s.text) && s.text[s.at] != ']'; s.blank(",") {
			n++
			start := s.at
			s.mark(element(path, n), start)
			s.value(element(path, n))
			s.at = max(s.at, start+1)
		}
		s.at = min(s.at+1, len(s.text))
	default:
		s.until(",]}#\n")
	}
}

// quoted skips a string of any of the four forms.
func (s *scanner) quoted() {
	quote := s.text[s.at : s.at+1]
	if long := strings.Repeat(quote, 3); strings.HasPrefix(s.text[s.at:], long) {
		s.at += 3
		s.close(long, quote == `"`)
		for s.at < len(s.text) && s.text[s.at] == quote[0] { // up to two quotes may stand before the closing three
			s.at++
		}
		return
	}
	s.at++
	s.close(quote, quote == `"`)
}

func (s *scanner) close(end string, escapes bool) {
	for s.at < len(s.text) {
		if escapes && s.text[s.at] == '\\' {
			s.at = min(s.at+2, len(s.text))
			continue
		}
		if strings.HasPrefix(s.text[s.at:], end) {
			s.at += len(end)
			return
		}
		s.at++
	}
}

func element(path string, n int) string { return path + "[" + strconv.Itoa(n) + "]" }

func join(path, key string) string {
	if !bare(key) {
		key = strconv.Quote(key)
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

func bare(key string) bool {
	for i := range len(key) {
		c := key[i]
		if (c < 'a' || c > 'z') && (c < 'A' || c > 'Z') && (c < '0' || c > '9') && c != '_' && c != '-' {
			return false
		}
	}
	return key != ""
}
