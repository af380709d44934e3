package page

import (
	_ "embed"
	"fmt"
	"strings"

	"strandry/plots/palette"
)

// styles is the whole style sheet of a page: its look, and what the colours of the palette mean.
func styles() string {
	var rules, night, print strings.Builder
	for _, m := range palette.All() {
		for _, scheme := range []struct {
			out  *strings.Builder
			tone palette.Tone
		}{{&rules, m.Day()}, {&night, m.Night()}, {&print, m.Print()}} {
			fmt.Fprintf(scheme.out, ".%v{color:%s;background:%s}", m, scheme.tone.Ink.Hex(), scheme.tone.Ground.Hex())
		}
	}
	return "\n" + style + rules.String() + "\n@media screen and (prefers-color-scheme:dark){" + night.String() + "}\n@media print{" + print.String() + "}\n"
}

// style is the look of the page: the faces of the reader's own system, ink on paper by day,
// chalk on slate by night. Every pair of colours of text and ground has a contrast of 4.5 to 1 or
// more. On a narrow screen each row of a table becomes a card.
//
//go:embed page.css
var style string
