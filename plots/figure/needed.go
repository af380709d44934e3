package figure

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
	"strandry/scenarios"
	"strandry/scenarios/studies/needed"
	"strandry/scenarios/studies/size"
)

// Needed is the length of a zone that meets the limit, against its temperature, one line for each
// feed speed.
type Needed struct {
	Frame
	needed.Table
	Material  string          // as people write it
	HeatLimit float64         // highest to dry at: the usual one, or up to where the strand holds [K]
	GivesWay  materials.Range // where a strand begins to give way [K]
	Longest   float64         // path that can be built [m]
	Limit     float64         // moisture that prints well [kg/kg dry]
}

func (f Needed) height() canvas.Length { return 480 }

func (f Needed) check() error {
	if len(f.Temperatures) < 2 || len(f.Speeds) == 0 || f.Zone == "" {
		return errEmpty
	}
	err := errors.Join(rising("temperature", f.Temperatures), positive("speed", f.Speeds...), rising("speed", f.Speeds),
		grid("length", f.Lengths, len(f.Speeds), len(f.Temperatures)), notNegative("length", f.Lengths...),
		positive("heat limit, range of softening, longest path and moisture limit", f.HeatLimit, f.GivesWay.Min, f.GivesWay.Max, f.Longest, f.Limit))
	if f.NineInTen == nil {
		return err
	}
	if f.Own < 0 || f.Own >= len(f.Speeds) {
		err = errors.Join(err, fmt.Errorf("figure: lengths nine times in ten at speed %d of %d", f.Own+1, len(f.Speeds)))
	}
	return errors.Join(err, grid("length nine times and one time in ten", [][]float64{f.NineInTen, f.OneInTen}, 2, len(f.Temperatures)))
}

// WithOwnLength puts what was found for the scenario's own zone, at a temperature [K] and its own speed, in the place of what the table has: the length that meets the
// limit at the medians, and nine times in ten [m].
func (f Needed) WithOwnLength(temperature, met, reliable float64) Needed {
	const alike = 0.01
	at := slices.IndexFunc(f.Temperatures, func(t float64) bool { return math.Abs(t-temperature) < alike })
	if at < 0 || f.NineInTen == nil || f.Lengths[f.Own][at] <= 0 || f.NineInTen[at] <= 0 {
		return f
	}
	f.Lengths, f.NineInTen = slices.Clone(f.Lengths), slices.Clone(f.NineInTen)
	f.Lengths[f.Own] = slices.Clone(f.Lengths[f.Own])
	f.Lengths[f.Own][at], f.NineInTen[at] = met, reliable
	return f
}

// shortest is the least length at a speed at temperatures within the heat limit; 0 for none.
func (f Needed) shortest(speed int) (length, temperature float64) {
	for i, t := range f.Temperatures {
		if v := f.Lengths[speed][i]; v > 0 && t <= f.HeatLimit+1e-6 && (length == 0 || v < length) {
			length, temperature = v, t
		}
	}
	return length, temperature
}

// takes prints a length at a speed and a temperature, with what is enough one time and nine times in ten where that is known.
func (f Needed) takes(speed int, length, temperature float64) string {
	at := slices.Index(f.Temperatures, temperature)
	if f.NineInTen == nil || speed != f.Own || f.NineInTen[at] <= 0 || f.OneInTen[at] <= 0 {
		return words.Metres(length)
	}
	from := "none"
	if f.OneInTen[at] > size.Shortest {
		from = words.Digits(f.OneInTen[at], 2)
	}
	return words.Digits(length, 3) + words.NBSP + "m (" + from + " to " + words.Digits(f.NineInTen[at], 3) + ", eight times in ten)"
}

// own is the headline at the scenario's own feed; "" where nothing is known of its doubt.
func (f Needed) own() string {
	if f.NineInTen == nil {
		return ""
	}
	length, t := f.shortest(f.Own)
	if length <= size.Shortest {
		return ""
	}
	text := fmt.Sprintf("At %s %s needs %s of %s at %s", words.Speed(f.Speeds[f.Own]), f.Material, f.takes(f.Own, length, t), f.Zone, words.Celsius(t))
	if length > f.Longest {
		text += fmt.Sprintf("; %s can be built", words.Metres(f.Longest))
	}
	return text
}

// Headline tells what the scenario's own feed takes, or else the fastest feed that a path within both limits can dry, or how much too long the shortest
// path is.
func (f Needed) Headline() string {
	if text := f.own(); text != "" {
		return text
	}
	for k := len(f.Speeds) - 1; k >= 0; k-- {
		switch length, t := f.shortest(k); {
		case length == 0 || length > f.Longest:
			continue
		case length <= size.Shortest:
			return fmt.Sprintf("%s can be dried at a feed of up to %s (of those shown): at %s it needs no %s", f.Material, words.Speed(f.Speeds[k]), words.Celsius(t), f.Zone)
		default:
			return fmt.Sprintf("%s can be dried at a feed of up to %s (of those shown): it takes %s of %s at %s", f.Material, words.Speed(f.Speeds[k]), words.Metres(length), f.Zone, words.Celsius(t))
		}
	}
	for k := range f.Speeds {
		if length, t := f.shortest(k); length > 0 {
			return fmt.Sprintf("Even at %s %s needs %s of %s at %s; %s can be built", words.Speed(f.Speeds[k]), f.Material, words.Metres(length), f.Zone, words.Celsius(t), words.Metres(f.Longest))
		}
	}
	return fmt.Sprintf("At up to %s no length of %s brings %s within its limit of %s", words.Celsius(f.HeatLimit), f.Zone, f.Material, words.Percent(f.Limit))
}

func (f Needed) draw(s *canvas.Sheet, room canvas.Rectangle) {
	x := each(f.Temperatures, func(t float64) float64 { return t - words.ZeroCelsius })
	all := slices.Concat(slices.Concat(f.Lengths...), f.NineInTen, f.OneInTen)
	all = slices.DeleteFunc(all, func(v float64) bool { return v <= size.Shortest })
	y := canvas.LogOver(append(all, f.Longest))
	y.Max = max(y.Max, f.Longest*4)
	y.Min = min(y.Min, f.Longest/4)
	texts := []string{"longest", words.Speed(f.Speeds[0])}
	for k, v := range f.Speeds {
		text := words.Speed(v)
		if last := f.Lengths[k][len(x)-1]; last > 0 && last <= size.Shortest {
			text += ": no need"
		}
		texts = append(texts, text)
	}
	heat, along := heatOf(f.GivesWay), canvas.Scale{Min: x[0], Max: x[len(x)-1]}
	a := canvas.Axes{
		X: along, Y: y, XLabel: "Air temperature of " + f.Zone + ", °C" + heat.beyond(along.Max, "°C"),
		YLabel: "Length of " + f.Zone + " needed, m", Right: s.EndRoom(texts...),
		Strip: heat.strip(along),
	}
	p := s.Panel(room, a)
	f.bounds(p)
	var labels []canvas.Label
	if at, ok := f.doubt(p, x); ok {
		labels = append(labels, canvas.Label{Text: "8 in 10", At: at, Colour: palette.Quiet})
	}
	p.Grid()
	colours := palette.Ordered(len(f.Speeds))
	for k := range f.Speeds {
		if at, ok := f.curve(p, k, x, colours[k]); ok {
			labels = append(labels, canvas.Label{Text: texts[k+2], At: at, Colour: colours[k], Bold: k == f.Own && f.NineInTen != nil})
		}
	}
	f.walls(p)
	heat.upright(p, "°C")
	p.Frame()
	p.Ends(labels)
}

// curve draws the line of one speed, broken where no length is enough and on the floor where none is
// needed, and returns its end.
func (f Needed) curve(p *canvas.Panel, speed int, x []float64, c palette.Colour) (end canvas.Point, ok bool) {
	style := canvas.Stroke(c, 2)
	if speed == f.Own && f.NineInTen != nil {
		style.Width = 3.6
	}
	lengths := f.Lengths[speed]
	for _, run := range runs(len(lengths), func(i int) bool { return lengths[i] > 0 }) {
		fine, y := smoothByRatio(x[run[0]:run[1]], each(lengths[run[0]:run[1]], func(v float64) float64 { return max(v, p.Y.Min) }))
		end, ok = p.At(fine[len(fine)-1], y[len(y)-1]), true
		if len(fine) == 1 {
			p.Disc(end, 3, c)
		}
		p.Line(style, fine, y)
	}
	return end, ok
}

// doubt shades, at the scenario's own feed, from the length that is enough one time in ten to that nine times in ten, draws both edges, and returns where
// it ends on the right.
func (f Needed) doubt(p *canvas.Panel, x []float64) (end canvas.Point, ok bool) {
	known := func(i int) bool { return f.NineInTen[i] > 0 && f.OneInTen[i] > 0 && f.Lengths[f.Own][i] > 0 }
	for _, run := range runs(len(f.NineInTen), known) {
		if run[1]-run[0] < 2 {
			continue
		}
		at := x[run[0]:run[1]]
		fine, below := smoothByRatio(at, each(f.OneInTen[run[0]:run[1]], func(v float64) float64 { return max(v, p.Y.Min) }))
		_, above := smoothByRatio(at, f.NineInTen[run[0]:run[1]])
		p.Band(fine, below, above, palette.Doubted)
		for _, edge := range [...][]float64{below, above} {
			p.Line(canvas.Stroke(palette.Quiet, 1.4, canvas.Dashed()...), fine, edge)
		}
		last := len(fine) - 1
		end, ok = p.At(fine[last], math.Sqrt(above[last]*math.Sqrt(below[last]*above[last]))), true // above the line
	}
	return end, ok
}

// bounds shades what can be and what cannot.
func (f Needed) bounds(p *canvas.Panel) {
	p.Fill(p.Box, palette.BeyondReach)
	r := p.Box
	r.Max.X = min(r.Max.X, max(r.Min.X, p.AtX(f.HeatLimit-words.ZeroCelsius)))
	r.Max.Y = p.AtY(f.Longest)
	p.Fill(r, palette.Paper)
}

// walls draws and names the two limits, each name where no line passes if there is such a place.
func (f Needed) walls(p *canvas.Panel) {
	bold := p.Style(canvas.TickSize, palette.Ink, true)
	line := canvas.Stroke(palette.Ink, 2, canvas.Dashed()...)
	b, off := p.Box, canvas.TickSize*0.8
	y := p.AtY(f.Longest)
	p.Segment(line, b.Min.X, y, b.Max.X, y)
	const places = 24
	var spots []canvas.Spot
	for _, side := range [...]canvas.Length{off, -off} {
		for k := range places {
			at := canvas.Point{X: b.Min.X + 6 + b.Size().X*canvas.Length(k)/places, Y: y + side}
			spots = append(spots, canvas.Spot{At: at, Side: canvas.Right})
		}
	}
	p.Place(bold, "can be built: "+words.Metres(f.Longest), spots, f.passing(p))
	heat := f.HeatLimit - words.ZeroCelsius
	if !p.X.Holds(heat) {
		return
	}
	x := p.AtX(heat)
	p.Segment(line, x, b.Min.Y, x, b.Max.Y)
	var beside []canvas.Spot
	for k := range places {
		at := b.Min.Y + off + b.Size().Y*canvas.Length(k)/places
		beside = append(beside, canvas.Spot{At: canvas.Point{X: x - 6, Y: at}, Side: canvas.Left}, canvas.Spot{At: canvas.Point{X: x + 6, Y: at}, Side: canvas.Right})
	}
	p.Place(bold, "usual highest for "+f.Material+": "+words.Celsius(f.HeatLimit), beside, f.passing(p))
}

// passing is where lines run, closely spaced: the curves and the wall of heat.
func (f Needed) passing(p *canvas.Panel) []canvas.Point {
	var out []canvas.Point
	add := func(a, b canvas.Point) { out = append(out, canvas.Along(a, b)...) }
	for _, row := range f.Lengths {
		for i := 1; i < len(row); i++ {
			if row[i-1] > 0 && row[i] > 0 {
				add(p.At(f.Temperatures[i-1]-words.ZeroCelsius, max(row[i-1], p.Y.Min)), p.At(f.Temperatures[i]-words.ZeroCelsius, max(row[i], p.Y.Min)))
			}
		}
	}
	x := p.AtX(f.HeatLimit - words.ZeroCelsius)
	add(canvas.Point{X: x, Y: p.Box.Min.Y}, canvas.Point{X: x, Y: p.Box.Max.Y})
	return out
}

// NeededOf makes the figure of a table of lengths for a scenario; where no length is enough at any temperature and speed, that of the least moisture that
// any length leaves.
func NeededOf(s *scenarios.Scenario, t *needed.Table, f Frame) Figure {
	m := &s.Design
	f.Setup.Feed, f.Setup.Length, f.Setup.Heat = "", "", ""
	if t.Unanswered > 0 {
		f.Notes = append(slices.Clone(f.Notes), strconv.Itoa(t.Unanswered)+" places without an answer")
	}
	if floor, ok := floorOf(s, t, f); ok {
		return floor
	}
	n := Needed{Frame: f, Table: *t, Material: m.Material.Name, HeatLimit: m.Material.HottestDrying(), GivesWay: m.Material.GivesWay(), Longest: s.LongestOf(slices.IndexFunc(m.Path, func(z diffusion.Zone) bool { return z.Name == t.Zone })), Limit: m.Limit}
	if t.Own < 0 {
		n.NineInTen, n.OneInTen = nil, nil
	}
	return n
}

// floorOf is the least moisture that any length leaves, over the temperature of the zone's air, at the scenario's own feed; ok tells that no length is
// enough anywhere, and that it is known at two temperatures or more.
func floorOf(s *scenarios.Scenario, t *needed.Table, f Frame) (floor Line, ok bool) {
	for _, row := range t.Lengths {
		for _, length := range row {
			if length > 0 {
				return floor, false
			}
		}
	}
	way := heatOf(s.Model.Material.GivesWay())
	l := Line{Frame: f, Limit: s.Limit, Of: "least moisture that any length leaves", X: Axis{Name: "air temperature of " + t.Zone, Unit: "°C", Heat: way}}
	l.Setup.Feed = words.Speed(s.Model.Speed)
	spread := true
	for i, residual := range t.Residual {
		if residual.Mean <= 0 {
			continue
		}
		celsius := t.Temperatures[i] - words.ZeroCelsius
		l.X.Values, l.Content = append(l.X.Values, celsius), append(l.Content, residual.Mean)
		l.Low, l.High = append(l.Low, residual.Low), append(l.High, residual.High)
		l.Excess = append(l.Excess, diffusion.Excess{Yield: celsius - way.Yields, Bear: celsius - way.Bears})
		spread = spread && residual.Low > 0
	}
	if !spread {
		l.Low, l.High = nil, nil
	}
	if len(l.Content) < 2 {
		return floor, false
	}
	best, found := 0, false
	for i, x := range l.Excess {
		if x.Survival() == diffusion.Holds && (!found || l.Content[i] < l.Content[best]) {
			best, found = i, true
		}
	}
	l.Says = fmt.Sprintf("No length of %s brings %s within its limit of %s: at %s, up to where it holds, the least left is %s",
		t.Zone, s.Model.Material.Name, words.Percent(l.Limit), l.X.say(l.X.Values[best]), l.keeps(best))
	return l, true
}
