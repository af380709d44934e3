package figure

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"gonum.org/v1/plot/vg"
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

func (f ErrorTime) frame() Frame    { return f.Frame }
func (f ErrorTime) height() float64 { return 470 }

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
		if err := finite("beta", p.Beta); err != nil {
			return err
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
			parts = append(parts, code+nbsp+briefly(slowest))
		}
	}
	return fmt.Sprintf("Shortest time for an error below %s: %s", percent(f.Error), strings.Join(parts, ", "))
}

// briefly prints a short time [s].
func briefly(t float64) string {
	switch {
	case t < 1e-3:
		return digits(1e6*t, 2) + nbsp + "µs"
	case t < 1:
		return digits(1e3*t, 2) + nbsp + "ms"
	}
	return digits(t, 2) + nbsp + "s"
}

func (f ErrorTime) draw(s *sheet, headline string) {
	const gap vg.Length = 16
	room := s.framed(f.Frame, headline)
	var times, errors []float64
	for _, p := range f.Points {
		times, errors = append(times, 1e3*p.Time), append(errors, p.Error)
	}
	a := axes{x: logFrom(times), y: logFrom(errors), xLabel: "Time of a march, ms"}
	a.y.min /= 3 // room for a label
	a.left = s.leftRoom(a.y, 300)
	betas := f.betas()
	width := (room.Size().X - gap*vg.Length(len(betas)-1)) / vg.Length(len(betas))
	for i, beta := range betas {
		part := room
		part.Min.X += vg.Length(i) * (width + gap)
		part.Max.X = part.Min.X + width
		a.yLabel = "Relative error, β = " + digits(beta, 3)
		f.panel(s.inside(part, a), a, beta)
	}
}

// panel draws the measurements of one beta.
func (f ErrorTime) panel(p *panel, a axes, beta float64) {
	p.grid()
	p.frame(a)
	patterns := [][]vg.Length{solid(), dashed(), dotted()}
	for i, code := range f.codes() {
		times, errors := f.of(code, beta)
		if len(times) == 0 {
			continue
		}
		c := lineColors()[i%len(lineColors())]
		for k := range times {
			times[k] *= 1e3
			p.dot(p.at(times[k], errors[k]), 1.6, mix(c, paper(), 0.55))
		}
		t, e := envelope(times, errors)
		p.line(stroke(c, 2.5, patterns[i%len(patterns)]...), t, e)
		bold := p.s.style(tickSize, legible(c), true)
		first, last := p.at(t[0], e[0]), p.at(t[len(t)-1], e[len(e)-1])
		p.clear(bold, code, []anchored{
			{at: first.Add(vg.Point{X: 2, Y: 9}), a: alignment{-0.5, 0}}, {at: last.Sub(vg.Point{Y: 8}), a: hanging()},
			{at: last.Sub(vg.Point{X: 6, Y: 4}), a: alignment{-1, -1}},
		}, p.points(t, e))
	}
}
