package figure

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"strandry/materials"
	"strandry/scenarios/studies/size"
)

// Needed is the length of a zone that meets the limit, against its temperature, one line for each
// feed speed.
type Needed struct {
	Frame
	Material     string          // as people write it
	Zone         string          // the zone whose length is sought
	Temperatures []float64       // of its air [K], rising
	Speeds       []float64       // of the feed [m/s], rising
	Lengths      [][]float64     // [m]; Lengths[k][i] at Speeds[k], Temperatures[i]; 0 where no length is enough, size.Shortest where the strand needs none of the zone
	Own          int             // index of the scenario's own speed, if Likely is given
	Likely       []float64       // lengths at that speed that meet the limit nine times in ten, for each temperature [m]; 0 where not known; nil for none
	Unlikely     []float64       // one time in ten, the same
	HeatLimit    float64         // highest to dry at: the usual one, or up to where the strand holds [K]
	GivesWay     materials.Range // where a strand begins to give way [K]
	Longest      float64         // path that can be built [m]
	Limit        float64         // moisture that prints well [kg/kg dry]
}

func (f Needed) frame() Frame    { return f.Frame }
func (f Needed) height() float64 { return 480 }

func (f Needed) check() error {
	if len(f.Temperatures) < 2 || len(f.Speeds) == 0 || f.Zone == "" {
		return errEmpty
	}
	if err := rising("temperature", f.Temperatures); err != nil {
		return err
	}
	if err := positive("speed", f.Speeds...); err != nil {
		return err
	}
	if err := rising("speed", f.Speeds); err != nil {
		return err
	}
	if len(f.Lengths) != len(f.Speeds) {
		return fmt.Errorf("figure: lengths for %d speeds, but %d speeds", len(f.Lengths), len(f.Speeds))
	}
	for k, row := range f.Lengths {
		if len(row) != len(f.Temperatures) {
			return fmt.Errorf("figure: speed %d has %d lengths for %d temperatures", k+1, len(row), len(f.Temperatures))
		}
		for _, v := range row {
			if v < 0 {
				return fmt.Errorf("figure: a length of %g at speed %d; none lies below zero", v, k+1)
			}
		}
		if err := finite("length", row...); err != nil {
			return err
		}
	}
	if f.Likely != nil && (f.Own < 0 || f.Own >= len(f.Speeds) || len(f.Likely) != len(f.Temperatures) || len(f.Unlikely) != len(f.Temperatures)) {
		return fmt.Errorf("figure: %d and %d likely lengths at speed %d for %d temperatures", len(f.Likely), len(f.Unlikely), f.Own+1, len(f.Temperatures))
	}
	if err := finite("likely length", join(f.Likely, f.Unlikely)...); err != nil {
		return err
	}
	return positive("heat limit, range of softening, longest path and moisture limit", f.HeatLimit, f.GivesWay.Min, f.GivesWay.Max, f.Longest, f.Limit)
}

// Known puts what was found for the scenario's own zone, at a temperature [K] and its own speed, in the place of what the table has: the length that meets the
// limit at the medians, and nine times in ten [m].
func (f Needed) Known(temperature, met, likely float64) Needed {
	const alike = 0.01
	at := slices.IndexFunc(f.Temperatures, func(t float64) bool { return math.Abs(t-temperature) < alike })
	if at < 0 || f.Likely == nil || f.Lengths[f.Own][at] <= 0 || f.Likely[at] <= 0 {
		return f
	}
	f.Lengths, f.Likely = slices.Clone(f.Lengths), slices.Clone(f.Likely)
	f.Lengths[f.Own] = slices.Clone(f.Lengths[f.Own])
	f.Lengths[f.Own][at], f.Likely[at] = met, likely
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
	if f.Likely == nil || speed != f.Own || f.Likely[at] <= 0 || f.Unlikely[at] <= 0 {
		return metres(length)
	}
	from := "none"
	if f.Unlikely[at] > size.Shortest {
		from = digits(f.Unlikely[at], 2)
	}
	return digits(length, 3) + nbsp + "m (" + from + " to " + digits(f.Likely[at], 3) + ", eight times in ten)"
}

// own is the headline at the scenario's own feed; "" where nothing is known of its doubt.
func (f Needed) own() string {
	if f.Likely == nil {
		return ""
	}
	length, t := f.shortest(f.Own)
	if length <= size.Shortest {
		return ""
	}
	text := fmt.Sprintf("At %s %s needs %s of %s at %s", speedOf(f.Speeds[f.Own]), f.Material, f.takes(f.Own, length, t), f.Zone, celsius(t))
	if length > f.Longest {
		text += fmt.Sprintf("; %s can be built", metres(f.Longest))
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
			return fmt.Sprintf("%s can be dried at a feed of up to %s (of those shown): at %s it needs no %s", f.Material, speedOf(f.Speeds[k]), celsius(t), f.Zone)
		default:
			return fmt.Sprintf("%s can be dried at a feed of up to %s (of those shown): it takes %s of %s at %s", f.Material, speedOf(f.Speeds[k]), metres(length), f.Zone, celsius(t))
		}
	}
	for k := range f.Speeds {
		if length, t := f.shortest(k); length > 0 {
			return fmt.Sprintf("Even at %s %s needs %s of %s at %s; %s can be built", speedOf(f.Speeds[k]), f.Material, metres(length), f.Zone, celsius(t), metres(f.Longest))
		}
	}
	return fmt.Sprintf("At up to %s no length of %s brings %s within its limit of %s", celsius(f.HeatLimit), f.Zone, f.Material, percent(f.Limit))
}

func (f Needed) draw(s *sheet, headline string) {
	room := s.framed(f.Frame, headline)
	x := make([]float64, len(f.Temperatures))
	for i, t := range f.Temperatures {
		x[i] = t - zeroCelsius
	}
	all := []float64{f.Longest}
	for _, row := range f.Lengths {
		for _, v := range row {
			if v > size.Shortest {
				all = append(all, v)
			}
		}
	}
	for i := range f.Likely {
		for _, v := range [...]float64{f.Likely[i], f.Unlikely[i]} {
			if v > size.Shortest {
				all = append(all, v)
			}
		}
	}
	y := logFrom(all)
	y.max = max(y.max, f.Longest*4)
	y.min = min(y.min, f.Longest/4)
	texts := []string{"longest", speedOf(f.Speeds[0])}
	for k, v := range f.Speeds {
		text := speedOf(v)
		if last := f.Lengths[k][len(x)-1]; last > 0 && last <= size.Shortest {
			text += ": no need"
		}
		texts = append(texts, text)
	}
	heat, along := heatOf(f.GivesWay), scale{min: x[0], max: x[len(x)-1]}
	a := axes{
		x: along, y: y, xLabel: "Air temperature of " + f.Zone + ", °C" + heat.beyond(along.max, "°C"),
		yLabel: "Length of " + f.Zone + " needed, m", right: s.endRoom(texts...),
		strip: heat.strip(along),
	}
	p := s.inside(room, a)
	f.bounds(p)
	var labels []label
	if at, ok := f.belt(p, x); ok {
		labels = append(labels, label{text: "8 in 10", at: at, color: quiet()})
	}
	p.grid()
	colors := ordered(len(f.Speeds))
	for k := range f.Speeds {
		if at, ok := f.curve(p, k, x, colors[k]); ok {
			labels = append(labels, label{text: texts[k+2], at: at, color: colors[k], bold: k == f.Own && f.Likely != nil})
		}
	}
	f.walls(p)
	p.heatUpright(heat, "°C")
	p.frame(a)
	p.ends(labels)
}

// curve draws the line of one speed, broken where no length is enough and on the floor where none is
// needed, and returns its end.
func (f Needed) curve(p *panel, speed int, x []float64, c color.NRGBA) (end vg.Point, ok bool) {
	var px, py []float64
	flush := func() {
		if len(px) == 1 {
			p.dot(p.at(px[0], py[0]), 3, c)
		}
		if len(px) > 0 {
			style := stroke(c, 2)
			if speed == f.Own && f.Likely != nil {
				style.Width = 3.6
			}
			fine := evenSteps(px[0], px[len(px)-1])
			px, py = fine, raised(through(px, logs(py), fine))
			p.line(style, px, py)
			end, ok = p.at(px[len(px)-1], py[len(py)-1]), true
		}
		px, py = nil, nil
	}
	for i, v := range f.Lengths[speed] {
		if v <= 0 {
			flush()
			continue
		}
		px, py = append(px, x[i]), append(py, max(v, p.y.min))
	}
	flush()
	return end, ok
}

// evenSteps are places between two others, close enough for a curve; one where they are the same.
func evenSteps(from, to float64) []float64 {
	if from == to {
		return []float64{from}
	}
	const steps = 120
	out := make([]float64, steps+1)
	for i := range out {
		out[i] = from + (to-from)*float64(i)/steps
	}
	return out
}

func logs(x []float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = math.Log(v)
	}
	return out
}

func raised(x []float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = math.Exp(v)
	}
	return out
}

// belt shades, at the scenario's own feed, from the length that is enough one time in ten to that nine times in ten, draws both edges, and returns where
// it ends on the right.
func (f Needed) belt(p *panel, x []float64) (end vg.Point, ok bool) {
	var at, low, high []float64
	flush := func() {
		if len(at) > 1 {
			fine := evenSteps(at[0], at[len(at)-1])
			below, above := raised(through(at, logs(low), fine)), raised(through(at, logs(high), fine))
			p.band(fine, below, above, doubted())
			for _, edge := range [...][]float64{below, above} {
				p.line(stroke(quiet(), 1.4, dashed()...), fine, edge)
			}
			last := len(fine) - 1
			end, ok = p.at(fine[last], math.Sqrt(above[last]*math.Sqrt(below[last]*above[last]))), true // above the line
		}
		at, low, high = nil, nil, nil
	}
	for i := range f.Likely {
		if f.Likely[i] <= 0 || f.Unlikely[i] <= 0 || f.Lengths[f.Own][i] <= 0 {
			flush()
			continue
		}
		at, low, high = append(at, x[i]), append(low, max(f.Unlikely[i], p.y.min)), append(high, f.Likely[i])
	}
	flush()
	return end, ok
}

// bounds shades what can be and what cannot.
func (f Needed) bounds(p *panel) {
	p.s.fill(p.box, beyondReach())
	r := p.box
	r.Max.X = min(r.Max.X, max(r.Min.X, p.atX(f.HeatLimit-zeroCelsius)))
	r.Max.Y = p.atY(f.Longest)
	p.s.fill(r, buildable())
}

// walls draws and names the two limits, each name where no line passes if there is such a place.
func (f Needed) walls(p *panel) {
	bold := p.s.style(tickSize, ink(), true)
	line := stroke(ink(), 2, dashed()...)
	b, off := p.box, tickSize*0.8
	y := p.atY(f.Longest)
	p.s.StrokeLine2(line, b.Min.X, y, b.Max.X, y)
	const places = 24
	var spots []anchored
	for _, side := range [...]vg.Length{off, -off} {
		for k := range places {
			at := vg.Point{X: b.Min.X + 6 + b.Size().X*vg.Length(k)/places, Y: y + side}
			spots = append(spots, anchored{at: at, a: toRight()})
		}
	}
	p.clear(bold, "can be built: "+metres(f.Longest), spots, f.passing(p))
	heat := f.HeatLimit - zeroCelsius
	if !p.x.holds(heat) {
		return
	}
	x := p.atX(heat)
	p.s.StrokeLine2(line, x, b.Min.Y, x, b.Max.Y)
	var beside []anchored
	for k := range places {
		at := b.Min.Y + off + b.Size().Y*vg.Length(k)/places
		beside = append(beside, anchored{at: vg.Point{X: x - 6, Y: at}, a: toLeft()}, anchored{at: vg.Point{X: x + 6, Y: at}, a: toRight()})
	}
	p.clear(bold, "usual highest for "+f.Material+": "+celsius(f.HeatLimit), beside, f.passing(p))
}

// dense are points on the way from a to b, closely spaced.
func dense(a, b vg.Point) []vg.Point {
	const steps = 40
	out := make([]vg.Point, steps+1)
	for k := range out {
		out[k] = between(a, b, vg.Length(k)/steps)
	}
	return out
}

// passing is where lines run, closely spaced: the curves and the wall of heat.
func (f Needed) passing(p *panel) []vg.Point {
	var out []vg.Point
	add := func(a, b vg.Point) { out = append(out, dense(a, b)...) }
	for _, row := range f.Lengths {
		for i := 1; i < len(row); i++ {
			if row[i-1] > 0 && row[i] > 0 {
				add(p.at(f.Temperatures[i-1]-zeroCelsius, max(row[i-1], p.y.min)), p.at(f.Temperatures[i]-zeroCelsius, max(row[i], p.y.min)))
			}
		}
	}
	x := p.atX(f.HeatLimit - zeroCelsius)
	add(vg.Point{X: x, Y: p.box.Min.Y}, vg.Point{X: x, Y: p.box.Max.Y})
	return out
}
