package table

import (
	"io"
	"strings"
)

// Page is an answer that can be read by people and by programs.
type Page interface {
	// Check refuses figures that are not finite.
	Check() error
	text(b *strings.Builder)
	json() any // in SI units
}

// WriteText writes a page as text for a terminal. It writes nothing and returns an error if any figure is not finite.
func WriteText(out io.Writer, p Page) error { return written(out, p.Check, p.text) }

// WriteJSON writes a page as indented JSON in SI units. It writes nothing and returns an error if any figure is not finite.
func WriteJSON(out io.Writer, p Page) error {
	if err := p.Check(); err != nil {
		return err
	}
	return encode(out, p.json())
}

// written writes a text whose figures pass a check.
func written(out io.Writer, check func() error, text func(b *strings.Builder)) error {
	if err := check(); err != nil {
		return err
	}
	var b strings.Builder
	text(&b)
	_, err := io.WriteString(out, b.String())
	return err
}
