package size

import (
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/scenarios/studies/reliability"
)

// Shortest and longest path of a zone that is looked at [m].
const Shortest, Longest = 1e-3, 1e4

// Length is the length of a zone at which a model just meets its limit.
type Length struct {
	Outcome Outcome
	Value   float64 // meets the limit, or comes nearest to it [m]
	From    float64 // Met: the limit is met from here, which is Value unless shorter is drier [m]
	// NumericalError is the half-width of the band that holds the true value; zero unless met [m].
	NumericalError float64
	Ratio          float64            // content at the nozzle over the limit there
	Survives       diffusion.Survival // there, or at [Shortest] where none is needed: whether the strand keeps its shape
	Marches        int                // that it took; one for all lengths where one settles them
}

// None tells that the strand needs none of the zone: it meets its limit from [Shortest] on, and, where
// the zone wets it, up to Value.
func (l Length) None() bool {
	return l.Outcome == Everywhere || l.Outcome == Met && l.From <= Shortest
}

// LengthOf seeks the length of the zone with the given index between [Shortest] and
// [Longest]. Of several lengths that just meet the limit it gives that next to the
// model's own.
func LengthOf(w *diffusion.March, m *diffusion.Design, zone int, s diffusion.Settings) (Length, error) {
	return lengthNextTo(m.Path[zone].Length, w, m, zone, s)
}

// ShortestOf seeks as [LengthOf] does, but of several lengths that just meet the limit it gives the
// shortest, whatever the model's own.
func ShortestOf(w *diffusion.March, m *diffusion.Design, zone int, s diffusion.Settings) (Length, error) {
	return lengthNextTo(Shortest, w, m, zone, s)
}

func lengthNextTo(near float64, w *diffusion.March, m *diffusion.Design, zone int, s diffusion.Settings) (Length, error) {
	search := lengths(w, m, zone, s)
	search.from, search.to, search.near = Shortest, Longest, near
	const share = 0.25
	search.within, search.roughly = share*m.LeastError(s), true // which its numerical error has in it
	f, err := search.run()
	if err != nil {
		return Length{}, err
	}
	out := Length{Outcome: f.outcome, Value: f.x, From: f.from}
	for _, p := range search.points {
		if p.X == f.x {
			out.Ratio, out.Survives = p.Ratio, p.Survives
		}
	}
	if out.None() {
		out.Survives = search.points[0].Survives
	}
	if f.outcome == Met {
		if search.rougher == 0 {
			coarse, err := search.rough(f.x)
			if err != nil {
				return out, err
			}
			search.marches++
			search.rougher = math.Abs(height(coarse.Ratio) - height(out.Ratio))
		}
		// A march that is that much coarser is off by more than this one.
		off := (search.rougher+m.LeastError(s))*out.Ratio + math.Abs(out.Ratio-1)
		if out.NumericalError, err = search.errorOf(f.x, off); err != nil {
			return out, err
		}
	}
	out.Marches = search.marches
	return out, nil
}

// ReliableLength is the length of a zone from which on a model meets its limit nine times in ten.
type ReliableLength struct {
	Outcome     Outcome // Everywhere: from [Shortest] on
	Value       float64 // from which on the limit is met so; where that is nowhere, the likeliest that was looked at [m]
	Probability float64 // of meeting the limit there
}

// ReliableOf seeks the shortest length of the zone with the given index that meets the limit nine times in ten, in the stretch that
// meets it at the medians: shortest is what [ShortestOf] has found there. Where that is nowhere, it is not asked how likely it is. A length beyond rough [m],
// above zero, is good to some tens of per cent only. Where the odds of the model, or of one like it, are known, fewer marches are made; nil where they are not.
func ReliableOf(w *diffusion.March, m *diffusion.Design, zone int, shortest Length, base *diffusion.Odds, rough float64, s diffusion.Settings) (ReliableLength, error) {
	if shortest.Outcome == Nowhere {
		return ReliableLength{Outcome: Nowhere, Value: shortest.Value}, nil
	}
	search := reliability.Search{From: math.Log(Shortest), To: math.Log(Longest), Step: farStep, Rough: rough}
	switch {
	case shortest.Outcome == Met && shortest.None():
		search.To = math.Log(shortest.Value)
	case shortest.Outcome == Met:
		search.From, search.Crossing, search.Step = math.Log(shortest.Value), true, FirstStep(m)
	}
	over, err := w.LengthOdds(m, zone, base, s)
	if err != nil {
		return ReliableLength{}, err
	}
	f, err := search.Lengths(over)
	outcomes := [...]Outcome{reliability.Met: Met, reliability.Already: Everywhere, reliability.Nowhere: Nowhere}
	return ReliableLength{outcomes[f.Outcome], math.Exp(f.Place), f.Probability}, err
}

// farStep is the first step from an end of a logarithmic range: what is sought may lie decades off.
const farStep = 3

// FirstStep is a guess of how much longer a zone, as a logarithm, is dry nine times in ten than it is at the medians: the time goes with
// the inverse of the diffusivity, and the rest of what is in doubt adds to it.
func FirstStep(m *diffusion.Design) float64 {
	const share, rest = 0.9, 0.25
	return rest + share*math.Log(m.Material.Diffusivity.Scatter.Value)
}

// lengths is a search for a length, without its range.
func lengths(w *diffusion.March, m *diffusion.Design, zone int, s diffusion.Settings) *search {
	varied := *m
	varied.Path = slices.Clone(m.Path)
	var results [2]diffusion.Result                                 // the last march, and the one at hand
	march := func(x float64, s diffusion.Settings) (Point, error) { // near the one before, as a rule, so that air and strand agree about where they did there
		varied.Path[zone].Length = x
		err := w.RunFrom(&results[0], &varied.Model, s, &results[1])
		results[0], results[1] = results[1], results[0]
		return pointOf(x, m, &results[0]), err
	}
	// The rough look is off by some 2e-4 of the content, and ten times as much as the other at the settings that are usual.
	rough := s.Rough()
	search := &search{
		at:    func(x float64) (Point, error) { return march(x, s) },
		rough: func(x float64) (Point, error) { return march(x, rough) },
	}
	if m.Path[zone].Air.Balanced() {
		search.guess = guess(w, m, zone, rough, &results[0])
	} else {
		search.many = func(x []float64, use func(Point)) error {
			return w.RunLengths(&m.Model, zone, x, rough, func(i int, r *diffusion.Result) error {
				use(pointOf(x[i], m, r))
				return nil
			})
		}
	}
	return search
}

// guess estimates the ratio at other lengths from a march at that of the model, which fills own; nil where there is no answer.
func guess(w *diffusion.March, m *diffusion.Design, zone int, s diffusion.Settings, own *diffusion.Result) func(x float64) float64 {
	if w.Run(&m.Model, s, own) != nil {
		return nil
	}
	content := m.Estimate(own)
	varied := m.Model
	varied.Path = slices.Clone(m.Path)
	return func(x float64) float64 {
		varied.Path[zone].Length = x
		return content(&varied) / m.Limit
	}
}

func pointOf(x float64, m *diffusion.Design, r *diffusion.Result) Point {
	return Point{X: x, Ratio: r.Nozzle.Mean / m.Limit, Survives: r.Survives(&m.Model)}
}

// errorOf is the half-width of the band that holds the true value, from that of the content
// (share) and the slope of the logarithm of the ratio on the scale, by a difference over a
// fiftieth of the value or a thousandth of the range.
func (s *search) errorOf(x, share float64) (float64, error) {
	low, high := s.scale(s.from), s.scale(s.to)
	u, step := s.scale(x), 0.01
	if s.even {
		step = (high - low) / 2000
	}
	slope, err := s.slope(u, step)
	if err != nil {
		return 0, err
	}
	slope = math.Abs(slope)
	band := share / slope
	if !(band < high-low) { // a slope of nothing too
		band = high - low
	}
	if s.even {
		return band, nil
	}
	return x * math.Expm1(band), nil
}
