package page

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
	"unicode"

	"strandry/plots/palette"
)

// dataURL holds a picture of a kind whole.
func dataURL(kind string, picture []byte) template.URL {
	return template.URL("data:image/" + kind + ";base64," + base64.StdEncoding.EncodeToString(picture))
}

// layout is the template of a page. It is well-formed XML too.
//
//go:embed page.html
var layout string

func htmlOf(d *document) ([]byte, error) {
	t, err := template.New("page").Funcs(functions()).Parse(layout)
	return filled(t, err, d)
}

// filled is a template with a document in it.
func filled(t interface {
	Execute(out io.Writer, with any) error
}, err error, d *document) ([]byte, error) {
	var out bytes.Buffer
	if err == nil {
		err = t.Execute(&out, d)
	}
	if err != nil {
		return nil, fmt.Errorf("page: %w", err)
	}
	return out.Bytes(), nil
}

// functions are those of the templates.
func functions() template.FuncMap {
	return template.FuncMap{
		"tight": tight, "name": name, "measure": measure, "tone": tone,
		"style": func() template.CSS { return template.CSS(styles()) },
	}
}

// tone is the meaning of a cell that is a verdict; nil for another.
func tone(cell string) *palette.Meaning {
	for _, m := range palette.All() {
		if cell == m.String() {
			return &m
		}
	}
	return nil
}

// tight joins each number and the short word after it, most often its unit, by a space at
// which no line ends.
func tight(s string) string {
	words := strings.Split(s, " ")
	var b strings.Builder
	for i, word := range words {
		if i > 0 {
			if number(words[i-1]) && unit(word) {
				b.WriteRune('\u00a0')
			} else {
				b.WriteByte(' ')
			}
		}
		b.WriteString(word)
	}
	return b.String()
}

func number(word string) bool {
	runes := []rune(word)
	return len(runes) > 0 && unicode.IsDigit(runes[len(runes)-1])
}

// unit tells whether a word is short and begins as a unit does.
func unit(word string) bool {
	word = strings.TrimRight(word, ".,;:)?")
	return slices.Contains([]string{"%", "±", "°C", "m", "mm", "cm", "s", "min", "h", "d", "K", "Pa", "kPa", "mm/s", "m/s", "L/min", "mm3/s", "mm³/s", "m²/s", "kg/m³", "kJ/mol", "GPa", "J/(kg", "W/(m"}, word)
}

// name is the head of a column without its unit.
func name(head string) string {
	before, _, _ := strings.Cut(head, ", ")
	return before
}

// measure is the unit of a column, for a cell that ends in a figure.
func measure(head, cell string) string {
	_, unit, _ := strings.Cut(head, ", ")
	if unit == "" || !number(cell) {
		return ""
	}
	return "\u00a0" + unit
}
