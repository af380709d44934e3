package figure

import (
	"errors"
	"fmt"
	"math"

	"strandry/diffusion"
	"strandry/plots/canvas"
	"strandry/plots/moisture"
	"strandry/plots/palette"
	"strandry/plots/words"
)

// Section is the section of a strand as a disc, at three times in a zone whose cover keeps its place.
type Section struct {
	Frame
	Design *diffusion.Design
	Trace  *diffusion.Trace
	Zone   int // index in the path
}

// SectionOf draws up the zone that the strand leaves least even round its skin, of those whose cover keeps its place; false
// where none has such a cover.
func SectionOf(m *diffusion.Design, t *diffusion.Trace, f Frame) (Section, bool) {
	zone, most := -1, math.Inf(-1)
	for i := range t.Sections {
		s := &t.Sections[i]
		if i+1 < len(t.Sections) && t.Sections[i+1].Zone == s.Zone {
			continue
		}
		if behind, open := ends(s); math.Abs(behind-open) > most {
			zone, most = s.Zone, math.Abs(behind-open)
		}
	}
	return Section{f, m, t, zone}, zone >= 0
}

// ends are the contents at the surface behind the cover and where the air reaches it best.
func ends(s *diffusion.Section) (behind, open float64) {
	skin := s.Content[len(s.Content)-1]
	return skin[len(skin)-1], skin[0]
}

func (f Section) height() canvas.Length { return 468 }

// mostDiscs is how many stand side by side.
const mostDiscs = 3

// sections are those of the zone.
func (f Section) sections() []*diffusion.Section {
	var out []*diffusion.Section
	for i := range f.Trace.Sections {
		if f.Trace.Sections[i].Zone == f.Zone {
			out = append(out, &f.Trace.Sections[i])
		}
	}
	return out
}

func (f Section) check() error {
	if err := checkTrace(f.Design, f.Trace); err != nil {
		return err
	}
	all := f.sections()
	if len(all) == 0 {
		return errEmpty
	}
	if len(all) > mostDiscs || f.Zone >= len(f.Design.Path) {
		return fmt.Errorf("figure: the %d sections of zone %d do not belong to this model", len(all), f.Zone+1)
	}
	for i, s := range all {
		if err := checkSection(s); err != nil {
			return fmt.Errorf("figure: section %d: %w", i+1, err)
		}
	}
	return nil
}

// checkSection refuses a section that cannot be drawn.
func checkSection(s *diffusion.Section) error {
	if len(s.Radius) < 2 || len(s.Angle) < 2 {
		return errEmpty
	}
	if !(s.Exposed > 0 && s.Exposed < 1) || s.Arcs < 1 || s.Arcs > diffusion.MostArcs {
		return fmt.Errorf("%d arcs with a share of %g exposed", s.Arcs, s.Exposed)
	}
	const slack = 1e-9
	if s.Radius[0] < 0 || s.Angle[0] < 0 || s.Angle[len(s.Angle)-1] > math.Pi/float64(s.Arcs)*(1+slack) {
		return fmt.Errorf("a radius or an angle outside the sector")
	}
	return errors.Join(rising("radius", s.Radius), rising("angle", s.Angle), grid("content", s.Content, len(s.Radius), len(s.Angle)), notNegative("content", s.Content...))
}

// Headline compares the skin behind the cover with that which the air reaches.
func (f Section) Headline() string {
	all := f.sections()
	s := all[len(all)-1]
	behind, open := ends(s)
	name, zone := f.Design.Material.Name, f.Design.Path[f.Zone].Name
	cover, text := "the cover", ""
	if s.Arcs > 1 {
		cover = "the covers"
	}
	switch held := words.Percent(behind); {
	case held == words.Percent(open):
		text = fmt.Sprintf("Behind %s the skin of %s holds as much as where the air reaches it, %s, as it leaves %s", cover, name, held, zone)
	case behind > open:
		text = fmt.Sprintf("Behind %s the skin of %s still holds %s as it leaves %s; where the air reaches it, %s", cover, name, held, zone, words.Percent(open))
	default:
		text = fmt.Sprintf("Behind %s the skin of %s holds only %s as it leaves %s; where the air reaches it, %s", cover, name, held, zone, words.Percent(open))
	}
	return text + heatWarning(f.Design, f.Trace)
}

// caption says what is covered, and which zone of several this is.
func (f Section) caption() string {
	s := f.sections()[0]
	arcs := "one arc that keeps its place"
	if s.Arcs > 1 {
		arcs = fmt.Sprintf("%d arcs that keep their places", s.Arcs)
	}
	text := fmt.Sprintf("%s: %s%s%% of the strand's perimeter is covered, by %s.", f.Design.Path[f.Zone].Name, words.Digits(100*(1-s.Exposed), 3), words.NBSP, arcs)
	zones := 0
	for i := range f.Design.Path {
		if f.Design.Path[i].Contact.Fixed() {
			zones++
		}
	}
	if zones > 1 {
		text += fmt.Sprintf(" Of %d such zones it is left least even.", zones)
	}
	return text
}

func (f Section) draw(s *canvas.Sheet, room canvas.Rectangle) {
	style := s.Style(canvas.TickSize, palette.Quiet, false)
	for _, line := range canvas.Wrap(f.caption(), room.Size().X, style.Width) {
		room.Max.Y -= canvas.TickSize * 1.2
		s.Put(style, canvas.Point{X: room.Min.X, Y: room.Max.Y + canvas.TickSize*0.25}, canvas.AboveRight, line)
	}
	room.Max.Y -= 8
	all := f.sections()
	var discs []*moisture.Disc
	var bounds []float64
	for _, one := range all {
		d := moisture.NewDisc(one)
		low, high := d.Bounds()
		discs, bounds = append(discs, d), append(bounds, low, high)
	}
	low, high := canvas.Bounds(bounds)
	t := moisture.TintOf(low, high, f.Design.Limit)
	t.Bar(s, canvas.Rectangle{Min: room.Min, Max: canvas.Point{X: room.Max.X, Y: room.Min.Y + moisture.BarRoom}})
	room.Min.Y += moisture.BarRoom
	for k, cell := range canvas.Columns(room, len(all), 0) {
		when := "after " + words.Time(all[k].Time)
		if k == len(all)-1 {
			when = "at the exit, " + when
		}
		x := canvas.Middle(cell).X
		s.Put(s.Style(canvas.LabelSize, palette.Ink, true), canvas.Point{X: x, Y: cell.Max.Y - canvas.LabelSize*0.5}, canvas.Centred, when)
		s.Put(s.Style(canvas.TickSize, palette.Ink, false), canvas.Point{X: x, Y: cell.Max.Y - canvas.LabelSize*1.7}, canvas.Centred, "mean "+words.Percent(all[k].Mean))
		cell.Max.Y -= canvas.LabelSize * 2.6
		discs[k].Draw(s, cell, t)
	}
}
