// Package palette says what a colour means, in every figure and on every page: one colour, one meaning. Each meaning has a word and a sign too, for
// nobody is to tell it by its colour alone. Sand, grey, blue and dark red keep apart for people with each of the usual deficiencies, and by lightness
// or sign in grey.
package palette

// Meaning is what a colour tells.
type Meaning int

// The meanings: the verdicts on a strand, and those on a check.
const (
	Unsure Meaning = iota
	Dry
	Wet
	Softens
	Passed
	Failed
)

// All lists them.
func All() []Meaning { return []Meaning{Unsure, Dry, Wet, Softens, Passed, Failed} }

// Tone is how a meaning looks. Ink on Ground has a contrast of 4.5 to 1 or more.
type Tone struct{ Ink, Ground Colour }

// look is all that belongs to a meaning.
type look struct {
	word, sign        string
	mark              Colour
	day, night, print Tone
}

func (m Meaning) look() look {
	return [...]look{
		Unsure:  {"unsure", "○", 0x6f6b66, Tone{0x4d4a45, 0xece9e2}, Tone{0xd5d1c8, 0x2b2f33}, Tone{0x333333, 0xffffff}},
		Dry:     {"dry", "●", 0xb9770e, Tone{0x7a5206, 0xfbf0d9}, Tone{0xf0c778, 0x352a14}, Tone{0x5c3d00, 0xffffff}},
		Wet:     {"wet", "✕", 0x08306b, Tone{0x0c3f75, 0xdfeaf6}, Tone{0xa3cdf5, 0x14293f}, Tone{0x0c3f75, 0xffffff}},
		Softens: {"softens", "▲", 0x7a1f0f, Tone{0x8a2b06, 0xfbe6dc}, Tone{0xf7b596, 0x3b1d10}, Tone{0x6b2003, 0xffffff}},
		Passed:  {"passed", "✓", 0x0b6a6a, Tone{0x085c5c, 0xdcf0ee}, Tone{0x86d6cf, 0x10302e}, Tone{0x085c5c, 0xffffff}},
		Failed:  {"failed", "✗", 0x8e1456, Tone{0x8e1456, 0xfae3ef}, Tone{0xf5a8cd, 0x3a1228}, Tone{0x6e0e42, 0xffffff}},
	}[m]
}

// String is the word, in small letters.
func (m Meaning) String() string { return m.look().word }

// Sign stands before the word.
func (m Meaning) Sign() string { return m.look().sign }

// Mark is the strong colour of a mark in a figure, on white.
func (m Meaning) Mark() Colour { return m.look().mark }

// Day is the tone on a light page and in a figure.
func (m Meaning) Day() Tone { return m.look().day }

// Night is the tone on a dark page.
func (m Meaning) Night() Tone { return m.look().night }

// Print is the tone on paper.
func (m Meaning) Print() Tone { return m.look().print }
