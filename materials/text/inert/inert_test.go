package inert_test

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/inert"
)

// The characters of Unicode's property Bidi_Control (PropList.txt of the Unicode Character Database), by their numbers.
const turns = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"

func TestFlaw(t *testing.T) {
	for _, sound := range []string{"", "a drum", "Größe 60 °C – ½ µm", "עברית", "家", "\ufffd", "a\u00a0b", "‘=’"} {
		require.Empty(t, inert.Flaw(sound), sound)
		require.Equal(t, sound, inert.Escaped(sound))
		require.Equal(t, sound, inert.EscapedLines(sound))
	}
	for flawed, says := range map[string]string{
		"a\nb": "a line break", "a\rb": "a line break", "a\u2028b": "a line break", "a\u2029b": "a line break", "a\tb": "a tab",
		"a\x1b[31mb": "control character (U+001B)", "a\x00b": "U+0000", "a\x7fb": "U+007F", "a\u0085b": "U+0085", "a\u009bb": "U+009B",
		"a\xffb": "no UTF-8", "a\xed\xa0\x80b": "no UTF-8", "a\uffffb": "stands for no character (U+FFFF)", "a\U0001fffeb": "U+1FFFE",
	} {
		require.Contains(t, inert.Flaw(flawed), says)
	}
	for _, r := range turns {
		require.Contains(t, inert.Flaw("a"+string(r)), "direction of writing")
	}
}

func TestEscaped(t *testing.T) {
	require.Equal(t, `a\n\r\t\u001b[2J\u202e\u2028\xff\xfe\U0001fffe.toml`, inert.Escaped("a\n\r\t\x1b[2J\u202e\u2028\xff\xfe\U0001fffe.toml"))
	require.Equal(t, "a\n\tb\r\n\\r\\u202e\\xff", inert.EscapedLines("a\n\tb\r\n\r\u202e\xff"))
	for _, r := range turns {
		var back string
		require.NoError(t, json.Unmarshal([]byte(`"`+inert.Escaped("a"+string(r))+`"`), &back))
		require.Equal(t, "a"+string(r), back, "JSON reads the escape")
	}
}

// The characters and the apostrophe are those of the advice on CSV injection of the Open Worldwide Application
// Security Project (its page "CSV Injection").
func TestCell(t *testing.T) {
	for _, runs := range []string{"=1+1", "+cmd", "-mine.toml", "@SUM(A1)", "\tx", "\rx", "\nx", "=", "-", "--1", "-1+2", "+1 m"} {
		require.Equal(t, "'"+runs, inert.Cell(runs))
	}
	for _, rests := range []string{"", "pa6", "a=b", "'=1", "-1", "+2", "-1.5e-3", "0", " =1"} {
		require.Equal(t, rests, inert.Cell(rests))
	}
}

func FuzzEscaped(f *testing.F) {
	f.Add("a\x1b\u202e\n\xff")
	f.Fuzz(func(t *testing.T, text string) {
		once := inert.Escaped(text)
		require.Empty(t, inert.Flaw(once))
		require.True(t, utf8.ValidString(once))
		require.Equal(t, once, inert.Escaped(once))
		if inert.Flaw(text) == "" {
			require.Equal(t, text, once)
		}
		lines := inert.EscapedLines(text)
		require.Empty(t, inert.Flaw(strings.NewReplacer("\r\n", "", "\n", "", "\t", "").Replace(lines)))
	})
}
