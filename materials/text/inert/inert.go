// Package inert keeps texts from doing anything: a terminal obeys control characters, a reader's eye is
// misled by characters that turn the direction of writing, and a spreadsheet computes what begins
// with an equals sign. A text that somebody wrote is refused where it is read if it has a [Flaw]; the name of a file,
// which may hold any byte, is shown [Escaped].
package inert

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Flaw names what keeps a text from being shown as it is on one line; "" for nothing.
func Flaw(text string) string {
	at := first(text, false)
	if at < 0 {
		return ""
	}
	r, size := utf8.DecodeRuneInString(text[at:])
	switch {
	case r == utf8.RuneError && size == 1:
		return "bytes that are no UTF-8"
	case r == '\n' || r == '\r' || unicode.In(r, unicode.Zl, unicode.Zp):
		return "a line break"
	case r == '\t':
		return "a tab"
	case unicode.Is(unicode.Bidi_Control, r):
		return fmt.Sprintf("a character that turns the direction of writing (%U)", r)
	case unicode.IsControl(r):
		return fmt.Sprintf("a control character (%U)", r)
	}
	return fmt.Sprintf("a code that stands for no character (%U)", r)
}

// Escaped is the text with each flaw as the escape that Go, JSON and, but for bytes that are no UTF-8,
// TOML have for it: \n, \u001b, \xff. A text without a flaw stays as it is.
func Escaped(text string) string { return escaped(text, false) }

// EscapedLines is Escaped for a text of many lines: their ends and tabs stay.
func EscapedLines(text string) string { return escaped(text, true) }

func escaped(text string, lines bool) string {
	at := first(text, lines)
	if at < 0 {
		return text
	}
	var out strings.Builder
	for at >= 0 {
		out.WriteString(text[:at])
		r, size := utf8.DecodeRuneInString(text[at:])
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&out, `\x%02x`, text[at])
		case r == '\n':
			out.WriteString(`\n`)
		case r == '\r':
			out.WriteString(`\r`)
		case r == '\t':
			out.WriteString(`\t`)
		case r > 0xffff:
			fmt.Fprintf(&out, `\U%08x`, r)
		default:
			fmt.Fprintf(&out, `\u%04x`, r)
		}
		text = text[at+size:]
		at = first(text, lines)
	}
	out.WriteString(text)
	return out.String()
}

// first is where the first flaw begins, or -1. Of many lines the ends are none, nor are tabs.
func first(text string, lines bool) int {
	for at, r := range text {
		switch {
		case lines && (r == '\n' || r == '\t' || r == '\r' && strings.HasPrefix(text[at+1:], "\n")):
		case r == utf8.RuneError:
			if _, size := utf8.DecodeRuneInString(text[at:]); size == 1 {
				return at
			}
		case r < utf8.RuneSelf && r >= ' ' && r != 0x7f: // most are
		case unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Bidi_Control, unicode.Noncharacter_Code_Point):
			return at
		}
	}
	return -1
}

// Cell is a text as a cell of a CSV file: one that a spreadsheet might take for a formula, since it begins with
// = + - @, a tab or a line break and is no number, gets an apostrophe before it, which makes it a text there
// (the advice on CSV injection of the Open Worldwide Application Security Project).
func Cell(text string) string {
	if text == "" || !strings.ContainsRune("=+-@\t\r\n", rune(text[0])) {
		return text
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text
	}
	return "'" + text
}
