package strict

import (
	"fmt"
	"strings"

	"strandry/materials/text/inert"
)

// Quoted writes a text as a basic string of TOML, on one line.
func Quoted(s string) string {
	var out strings.Builder
	out.WriteByte('"')
	for _, r := range strings.ToValidUTF8(s, "\ufffd") {
		switch {
		case r == '"' || r == '\\':
			out.WriteByte('\\')
			out.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&out, `\u%04x`, r)
		default:
			out.WriteString(inert.Escaped(string(r)))
		}
	}
	out.WriteByte('"')
	return out.String()
}
