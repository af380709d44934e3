package figure

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strandry/plots/canvas"
	"strandry/plots/palette"
	"strandry/plots/words"
	"strings"
)

// Timed is one measurement: how long a march took and how far off it ended.
type Timed struct {
	Code  string  // the program that marched
	Beta  float64 // growth of the diffusivity with content, by which the panels are parted [kg/kg]
	Time  float64 // of one march [s]
	Error float64 // of the content at the end, relative [-]
}

// ErrorTime is the error of a march against its time, code by code: each measurement, and the
// best error that a code reaches within a time.
type ErrorTime struct {
	Frame
	Points []Timed
	Error  float64 // that the headline asks for, relative [-]
}

func (f ErrorTime) height() canvas.Length { return 470 }

func (f ErrorTime) check() error {
	if len(f.Points) == 0 {
		return errEmpty
	}
	if err := positive("error asked for", f.Error); err != nil {
		return err
	}
	for _, p := range f.Points {
		if p.Code == "" {
			return errEmpty
		}
		if err := positive("time and error of "+p.Code, p.Time, p.Error); err != nil {
			return err
		}
	}
	return nil
}

// codes lists the codes in the order of the points.
func (f ErrorTime) codes() (codes []string) {
	for _, p := range f.Points {
		if !slices.Contains(codes, p.Code) {
			codes = append(codes, p.Code)
		}
	}
	return codes
}

func (f ErrorTime) betas() (betas []float64) {
	for _, p := range f.Points {
		if !slices.Contains(betas, p.Beta) {
			betas = append(betas, p.Beta)
		}
	}
	sort.Float64s(betas)
	return betas
}

// of are the measurements of one code, in order of time.
func (f ErrorTime) of(code string, beta float64) (times, errors []float64) {
	var own []Timed
	for _, p := range f.Points {
		if p.Code == code && p.Beta == beta {
			own = append(own, p)
		}
	}
	sort.SliceStable(own, func(i, j int) bool { return own[i].Time < own[j].Time })
	for _, p := range own {
		times, errors = append(times, p.Time), append(errors, p.Error)
	}
	return times, errors
}

// envelope keeps of measurements in order of time those that are better than all before.
func envelope(times, errors []float64) (t, e []float64) {
	best := math.Inf(1)
	for i := range times {
		if errors[i] < best {
			best = errors[i]
			t, e = append(t, times[i]), append(e, errors[i])
		}
	}
	return t, e
}

// Headline gives for each code the shortest time in which it reached the error asked for, the
// longer of the panels.
func (f ErrorTime) Headline() string {
	var parts []string
	for _, code := range f.codes() {
		slowest := 0.0
		for _, beta := range f.betas() {
			times, errors := f.of(code, beta)
			reached := math.Inf(1)
			for i := range times {
				if errors[i] <= f.Error {
					reached = min(reached, times[i])
				}
			}
			slowest = max(slowest, reached)
		}
		if !math.IsInf(slowest, 1) {
			parts = append(parts, code+words.NBSP+briefly(slowest))
		}
	}
	return fmt.Sprintf("Shortest time for an error below %s: %s", words.Percent(f.Error), strings.Join(parts, ", "))
}

// briefly prints a short time [s].
func briefly(t float64) string {
	switch {
	case t < 1e-3:
		return words.Digits(1e6*t, 2) + words.NBSP + "µs"
	case t < 1:
		return words.Digits(1e3*t, 2) + words.NBSP + "ms"
	}
	return words.Digits(t, 2) + words.NBSP + "s"
}

func (f ErrorTime) draw(s *canvas.Sheet, room canvas.Rectangle) {
	const gap = 16
	var times, errors []float64
	for _, p := range f.Points {
		times, errors = append(times, 1e3*p.Time), append(errors, p.Error)
	}
	a := canvas.Axes{X: canvas.LogOver(times), Y: canvas.LogOver(errors), XLabel: "Time of a march, ms"}
	a.Y.Min /= 3 // room for a label
	a.Left = s.LeftRoom(a.Y, 300)
	betas := f.betas()
	for i, part := range canvas.Columns(room, len(betas), gap) {
		a.YLabel = "Relative error, β = " + words.Digits(betas[i], 3)
		f.panel(s.Panel(part, a), betas[i])
	}
}

// panel draws the measurements of one beta.
func (f ErrorTime) panel(p *canvas.Panel, beta float64) {
	p.Grid()
	p.Frame()
	patterns := [][]canvas.Length{nil, canvas.Dashed(), canvas.Dotted()}
	for i, code := range f.codes() {
		times, errors := f.of(code, beta)
		if len(times) == 0 {
			continue
		}
		c := lineColours()[i%len(lineColours())]
		for k := range times {
			times[k] *= 1e3
			p.Disc(p.At(times[k], errors[k]), 1.6, palette.Mix(c, palette.Paper, 0.55))
		}
		t, e := envelope(times, errors)
		p.Line(canvas.Stroke(c, 2.5, patterns[i%len(patterns)]...), t, e)
		bold := p.Style(canvas.TickSize, palette.Legible(c), true)
		first, last := p.At(t[0], e[0]), p.At(t[len(t)-1], e[len(e)-1])
		p.Place(bold, code, []canvas.Spot{
			{At: first.Add(canvas.Point{X: 2, Y: 9}), Side: canvas.Above}, {At: last.Sub(canvas.Point{Y: 8}), Side: canvas.Below},
			{At: last.Sub(canvas.Point{X: 6, Y: 4}), Side: canvas.BelowLeft},
		}, p.Points(t, e))
	}
}
