package pull

import (
	"errors"
	"fmt"
	"math"
)

// Range is a quantity with what it may be at least and at most. The zero value stands for what is not known, where that is allowed.
type Range struct{ Low, Value, High float64 }

// Exactly is a quantity without doubt.
func Exactly(x float64) Range { return Range{x, x, x} }

// Known tells whether it is known at all.
func (r Range) Known() bool { return r != Range{} }

// The three cases that are gone through, as indices.
const (
	low = iota
	middle
	high
	cases
)

// at is the value of one case.
func (r Range) at(i int) float64 { return [cases]float64{r.Low, r.Value, r.High}[i] }

// of is the range of three values, the least and the greatest outside.
func of(v [cases]float64) Range {
	return Range{min(v[0], v[1], v[2]), v[middle], max(v[0], v[1], v[2])}
}

// Strand is what is pulled.
type Strand struct {
	Diameter float64 // [m], 1e-5 to 0.1
	Density  float64 // [kg/m³], 1 to 3e4
}

// Section is its area [m²].
func (s Strand) Section() float64 { return math.Pi / 4 * s.Diameter * s.Diameter }

// inertia is its second moment of area [m⁴].
func (s Strand) inertia() float64 { return math.Pi / 64 * math.Pow(s.Diameter, 4) }

// Stage is a place on the way.
type Stage struct {
	Name        string
	Element     Element
	Temperature float64 // of the strand there [K], 0 where it does not matter
	Modulus     Range   // of elasticity of the strand there [Pa], 1e3 to 1e12; zero where it is not known
}

// Point is the strand after a stage, where its tension there is greatest.
type Point struct {
	Name        string
	Tension     Range // after it [N]
	Stress      Range // of the greater of the tensions before and after it [Pa]
	Bending     Range // part of the tension that bending and straightening took [N]; zero where nothing is bent, or where the modulus or the share that is lost is not known
	Stretch     Stretched
	Temperature float64 // [K]
}

// Result is the way from spool to feeder.
type Result struct {
	Points  []Point
	Pull    Range // at the feeder: the tension after the last stage [N]
	Highest int   // index of the point of greatest stress
	Longest int   // index of the point of greatest strain among those where it is known; -1 where it is nowhere
	Hottest int   // index of the hottest point, the one of greatest stress among several; -1 where no temperature is given
}

// ErrBeyond says that the tension, or the number of what is bent, grows beyond what is computed.
var ErrBeyond = errors.New("beyond what is computed")

// Along goes through the stages in order, beginning with a strand without tension. An error names the stage and what is absurd in it.
func Along(s Strand, stages []Stage) (Result, error) {
	if err := s.check(); err != nil {
		return Result{}, fmt.Errorf("pull: %w", err)
	}
	if len(stages) == 0 || len(stages) > mostStages {
		return Result{}, fmt.Errorf("pull: %d stages: must be 1 to %d: %w", len(stages), mostStages, ErrBeyond)
	}
	r := Result{Longest: -1, Hottest: -1}
	var tension [cases]float64
	for _, stage := range stages {
		if err := stage.check(s.Diameter); err != nil {
			return Result{}, fmt.Errorf("pull: %s: %w", stage.Name, err)
		}
		p := s.through(stage, &tension)
		if !(p.Tension.High <= mostTension) {
			return Result{}, fmt.Errorf("pull: %s: tension may reach %.3g N: must not pass %.3g N; is the wrap or the friction right: %w", stage.Name, p.Tension.High, mostTension, ErrBeyond)
		}
		r.Points = append(r.Points, p)
	}
	r.Pull = of(tension)
	r.rank()
	return r, nil
}

// through is one stage, in all cases.
func (s Strand) through(stage Stage, tension *[cases]float64) Point {
	p := Point{Name: stage.Name, Temperature: stage.Temperature}
	bent := stage.Element.bend()
	var after, greater, lost [cases]float64
	for i := range cases {
		if bent.radius > 0 {
			lost[i] = bent.lost.at(i) * stage.Modulus.at(i) * s.inertia() / (2 * bent.radius * bent.radius)
		}
		after[i] = stage.Element.after(tension[i], lost[i], i, s)
		greater[i] = max(tension[i], after[i]) / s.Section()
	}
	*tension = after
	p.Tension, p.Stress, p.Bending = of(after), of(greater), of(lost)
	p.Stretch = stretched(p.Stress, stage.Modulus)
	return p
}

// rank finds the points that stand out.
func (r *Result) rank() {
	for i, p := range r.Points {
		if p.Stress.High > r.Points[r.Highest].Stress.High {
			r.Highest = i
		}
		if p.Stretch.Known && (r.Longest < 0 || p.Stretch.Strain.High > r.Points[r.Longest].Stretch.Strain.High) {
			r.Longest = i
		}
		if p.Temperature == 0 {
			continue
		}
		if r.Hottest < 0 {
			r.Hottest = i
			continue
		}
		h := r.Points[r.Hottest]
		if p.Temperature > h.Temperature || (p.Temperature == h.Temperature && p.Stress.High > h.Stress.High) {
			r.Hottest = i
		}
	}
}
