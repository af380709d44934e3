package canvas

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"html"
	"image"
	"regexp"
	"strconv"
	"sync"

	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"

	"strandry/diffusion/parallel"
	"strandry/plots/palette"
)

// Page is a drawing between its headline and its foot.
type Page struct {
	Headline, Foot string
	Height         Length
	Draw           func(s *Sheet, room Rectangle)
}

// drawn lays the page out.
func (p Page) drawn() *recording {
	var r recording
	s := newSheet(&r, p.Height)
	p.Draw(s, s.framed(p.Headline, p.Foot))
	return &r
}

// Format is a kind of file.
type Format string

// The formats.
const (
	PNG Format = "png" // 1600 pixels wide
	SVG Format = "svg" // letters stay letters
	PDF Format = "pdf" // letters are outlines
)

// Formats lists them all.
func Formats() []Format { return []Format{PNG, SVG, PDF} }

// dotsPerInch makes 1600 pixels of 600 points.
const dotsPerInch = 192

// Press makes files of pages, and keeps the memory of their dots for the pages that follow. Its zero value is ready; several pages may be made at once.
type Press struct {
	lock sync.Mutex
	free [][]uint8
}

// take is memory for dots; none where all is in use.
func (press *Press) take() (memory []uint8) {
	press.lock.Lock()
	defer press.lock.Unlock()
	if last := len(press.free) - 1; last >= 0 {
		memory, press.free = press.free[last], press.free[:last]
	}
	return memory
}

// leave is for memory that is no longer in use.
func (press *Press) leave(memory []uint8) {
	press.lock.Lock()
	defer press.lock.Unlock()
	press.free = append(press.free, memory)
}

// Encode draws a page once and gives it as files' bytes, in the order of the formats; they are the same for the same page. It refuses an unknown format.
func (press *Press) Encode(p Page, formats ...Format) ([][]byte, error) {
	drawn := p.drawn()
	return parallel.Each(context.Background(), len(formats), func(i int) ([]byte, error) { return press.encode(p, drawn, formats[i]) })
}

func (press *Press) encode(p Page, drawn *recording, format Format) ([]byte, error) {
	var out bytes.Buffer
	switch format {
	case PNG:
		dots := p.dots(drawn, dotsPerInch, press.take())
		defer press.leave(dots.Pix)
		return encodePNG(dots)
	case SVG:
		c := vgsvg.New(Width, p.Height)
		p.onPaper(c, drawn)
		_, err := c.WriteTo(&out)
		return titled(out.Bytes(), p.Headline), err
	case PDF:
		inFixedOrder()
		c := vgpdf.New(Width, p.Height)
		p.onPaper(outlined{c, map[int]bool{}}, drawn)
		_, err := c.WriteTo(&out)
		return undated(out.Bytes()), err
	}
	return nil, fmt.Errorf("figure: no format is called %q; allowed: png, svg, pdf", format)
}

// inFixedOrder has the library of the PDF write what it holds in a fixed order, pictures by their width, so that one page is always the same bytes. It is a switch for the whole
// program, thrown once.
var inFixedOrder = sync.OnceFunc(func() { fpdf.SetDefaultCatalogSort(true) })

// onPaper draws the page on a canvas that has no ground.
func (p Page) onPaper(c vg.Canvas, drawn *recording) {
	c.SetColor(palette.Paper)
	c.Fill(Rectangle{Max: Point{X: Width, Y: p.Height}}.Path())
	drawn.on(c)
}

// Dots draws the page as a picture of so many dots to the inch.
func (p Page) Dots(perInch int) *image.RGBA { return p.dots(p.drawn(), perInch, nil) }

func (p Page) dots(drawn *recording, perInch int, memory []uint8) *image.RGBA {
	r := newRaster(p.Height, perInch, memory)
	drawn.on(r)
	return r.dots
}

// titled gives an SVG its title, which a screen reader says, and a list of
// typefaces of the same widths for where Liberation is not installed.
func titled(svg []byte, headline string) []byte {
	var title bytes.Buffer
	title.WriteString("<title>")
	_ = xml.EscapeText(&title, []byte(headline)) // a buffer takes everything
	title.WriteString("</title>\n")
	svg = regexp.MustCompile(`<!--[^>]*-->\n`).ReplaceAll(svg, nil)
	svg = bytes.ReplaceAll(svg, []byte("font-family:Liberation Sans;"), []byte("font-family:'Liberation Sans',Arial,Helvetica,sans-serif;"))
	svg = bytes.ReplaceAll(svg, []byte("data:image/jpg;"), []byte("data:image/png;"))
	svg = sized(svg)
	head := bytes.Index(svg, []byte("<svg"))
	end := head + bytes.IndexByte(svg[head:], '>') + 2
	return bytes.Join([][]byte{svg[:head], []byte(`<svg role="img"`), svg[head+len("<svg") : end], title.Bytes(), svg[end:]}, nil)
}

// sized tells of each text in an SVG how long it is, so that another typeface takes no more room.
func sized(svg []byte) []byte {
	texts := regexp.MustCompile(`<text ([^>]*font-weight:(\w+);[^>]*font-size:([0-9.]+)px;[^>]*)>([^<]*)</text>`)
	set := fonts()
	return texts.ReplaceAllFunc(svg, func(whole []byte) []byte {
		part := texts.FindSubmatch(whole)
		size, err := strconv.ParseFloat(string(part[3]), 64)
		if err != nil {
			return whole
		}
		style := style(set, Length(size), palette.Ink, string(part[2]) == "bold")
		length := strconv.FormatFloat(float64(style.Width(html.UnescapeString(string(part[4])))), 'f', 1, 64)
		return fmt.Appendf(nil, `<text textLength="%s" lengthAdjust="spacingAndGlyphs" %s>%s</text>`, length, part[1], part[4])
	})
}

// undated takes from a PDF the time at which it was made, without moving a byte.
func undated(pdf []byte) []byte {
	for _, stamp := range regexp.MustCompile(`/(CreationDate|ModDate) \(D:\d{14}`).FindAllIndex(pdf, -1) {
		copy(pdf[stamp[1]-14:stamp[1]], "20000101000000")
	}
	return pdf
}
