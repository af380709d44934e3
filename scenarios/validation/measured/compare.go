package measured

import (
	"math"
	"slices"

	"strandry/materials"
)

// Verdict says where a measured value lies.
type Verdict int

// The verdicts.
const (
	Outside Verdict = iota // no part of what was measured lies in the predicted interval
	Partly                 // part of a measured range does, or of what a printed digit was rounded from
	Inside                 // all of it does, or the value as it is printed
)

// String returns "inside", "partly" or "outside".
func (v Verdict) String() string { return [...]string{"outside", "partly", "inside"}[v] }

// judge compares what was measured with a prediction. What is not a number lies outside.
func judge(f *Figure, p Prediction) Verdict {
	low, high := f.Low, f.High
	if f.Rounded {
		low, high = f.Middle(), f.Middle()
	}
	const rounding = 1e-9 // of a prediction by logarithms of diffusivities: an end that was set with a figure meets it
	from, to := p.Low-rounding*math.Abs(p.Low), p.High+rounding*math.Abs(p.High)
	switch {
	case low >= from && high <= to:
		return Inside
	case f.High >= from && f.Low <= to:
		return Partly
	}
	return Outside
}

// Comparison is a figure beside its prediction.
type Comparison struct {
	Figure
	Predicted Prediction
	Verdict   Verdict
}

// Off is the measured value, or the middle of its range, over the predicted one [-].
func (c *Comparison) Off() float64 { return c.Middle() / c.Predicted.Value }

// Tally counts verdicts.
type Tally struct{ Inside, Partly, Outside int }

// All is the number of figures counted.
func (t Tally) All() int { return t.Inside + t.Partly + t.Outside }

func (t *Tally) add(v Verdict) {
	switch v {
	case Inside:
		t.Inside++
	case Partly:
		t.Partly++
	default:
		t.Outside++
	}
}

// Evidence is the library beside all that was measured.
type Evidence struct {
	Comparisons []Comparison // material by material in the order of the library, within it in that of the data
	Unusable    []Unusable

	Independent Tally // of the figures that nothing in the library was made from
	Anchors     Tally // of the others

	Unmeasured   []string // materials without any figure
	AnchoredOnly []string // materials whose every figure is an anchor
	// DiffusivityUntested are the materials of which no independent figure tells how fast water moves.
	DiffusivityUntested []string
}

// Compare sets the library, or those of its materials that are named, against every figure of them.
func Compare(names ...string) (*Evidence, error) {
	figures, err := Figures()
	if err != nil {
		return nil, err
	}
	unusable, err := UnusableFigures()
	if err != nil {
		return nil, err
	}
	library, err := materials.Library()
	if err != nil {
		return nil, err
	}
	if len(names) > 0 {
		named := func(name string) bool { return slices.Contains(names, name) }
		library = slices.DeleteFunc(library, func(p materials.Polymer) bool { return !named(p.ID) })
		unusable = slices.DeleteFunc(unusable, func(u Unusable) bool { return !slices.ContainsFunc(u.Materials, named) })
	}
	return compare(library, figures, unusable), nil
}

func compare(library []materials.Polymer, figures []Figure, unusable []Unusable) *Evidence {
	e := &Evidence{Unusable: unusable}
	for i := range library {
		p := &library[i]
		own := slices.DeleteFunc(slices.Clone(figures), func(f Figure) bool { return f.Material != p.ID })
		for j := range own {
			predicted := Predict(p, &own[j])
			c := Comparison{own[j], predicted, judge(&own[j], predicted)}
			e.Comparisons = append(e.Comparisons, c)
			if c.Independent() {
				e.Independent.add(c.Verdict)
			} else {
				e.Anchors.add(c.Verdict)
			}
		}
		e.lacks(p.ID, own)
	}
	return e
}

// lacks notes what a material has no figures of.
func (e *Evidence) lacks(id string, own []Figure) {
	switch {
	case len(own) == 0:
		e.Unmeasured = append(e.Unmeasured, id)
	case !slices.ContainsFunc(own, func(f Figure) bool { return f.Independent() }):
		e.AnchoredOnly = append(e.AnchoredOnly, id)
	}
	if !slices.ContainsFunc(own, func(f Figure) bool { return f.Independent() && (f.Quantity == Diffusivity || f.Quantity == Uptake) }) {
		e.DiffusivityUntested = append(e.DiffusivityUntested, id)
	}
}

// Contradicting are the independent figures that lie outside what the library predicts, of those of the polymers that are the
// library's own, in their order. A polymer of which anything was changed has none.
func Contradicting(polymers []materials.Polymer) ([]Comparison, error) {
	own := slices.Clone(polymers)
	own = slices.DeleteFunc(own, func(p materials.Polymer) bool { return p.Origin != materials.FromLibrary })
	var names []string
	for _, p := range own {
		names = append(names, p.ID)
	}
	slices.Sort(names)
	figures, err := figuresOf(slices.Compact(names)...)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(compare(own, figures, nil).Comparisons, func(c Comparison) bool {
		return !c.Independent() || c.Verdict != Outside
	}), nil
}
