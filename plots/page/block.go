package page

import (
	"html/template"

	"strandry/plots/palette"
)

// document is what a page says, before it is set as HTML or Markdown.
type document struct {
	Kind     string // of page
	Skip     string // ID of the section that a reader of few words goes to
	Title    string
	Lead     string // below the title
	Foot     string
	Sections []section
}

type section struct {
	ID, Head string
	Blocks   []block
}

// block is one thing on the page; only one of its fields is set.
type block struct {
	Head    string // of what follows within the section
	Text    string
	List    []string
	Facts   []fact
	Grid    *grid
	Picture *picture
	Code    string
	Banner  *banner
}

// fact is the name of a figure, and the figure.
type fact = [2]string

// grid is a table. Its first column names the rows.
type grid struct {
	Heads []string
	Rows  []line
	Words bool // its cells are words, not figures
	Blank bool // its cells are to be written in by hand
}

// line is a row of a table, or a heading over the rows below it.
type line struct {
	Group string
	Cells []string
}

func (g *grid) add(cells ...string) { g.Rows = append(g.Rows, line{Cells: cells}) }

// picture is a figure with what it shows.
type picture struct {
	Number  int
	Name    string // of its files, without an ending
	Head    string
	Caption string // what is concluded from it
	Alt     string
	PNG     []byte
	SVG     []byte
	Width   int // [px]
	Height  int // [px]
}

// Source is the picture as a URL that holds it whole, in whichever form is the smaller.
func (p *picture) Source() template.URL {
	if len(p.SVG) > 0 && len(p.SVG) < len(p.PNG) {
		return dataURL("svg+xml", p.SVG)
	}
	return dataURL("png", p.PNG)
}

// banner is the verdict.
type banner struct {
	Word, Text string
	Kind       palette.Meaning
}

func text(s string) block { return block{Text: s} }
func head(s string) block { return block{Head: s} }

// listed is a list with its heading; nothing for an empty one.
func listed(heading string, list []string) []block {
	if len(list) == 0 {
		return nil
	}
	return []block{head(heading), {List: list}}
}
