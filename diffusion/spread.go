package diffusion

import (
	"cmp"
	"math"
	"slices"

	"strandry/diffusion/root"
)

// Span is the mean content at the nozzle over the scatter of the diffusivity. It rests on three
// marches, at the diffusivity and at the scatter's factor above and below. Where one of them takes
// up water in one zone and dries in another, the driest or the wettest may lie between, and more
// marches seek it.
type Span struct {
	points []point // by rising power
	turned bool
}

// point is a march at a power of the scatter.
type point struct{ power, mean float64 }

// Scattered is the model at a power of the scatter of its diffusivity: 1 for the greatest likely
// one, -1 for the least.
func (m *Model) Scattered(power float64) Model {
	varied := *m
	varied.DiffusivityFactor *= math.Pow(m.Material.Diffusivity.Scatter.Value, power)
	return varied
}

// Add notes what a march has found of the model at a power of the scatter, of which 0, 1 and -1
// are needed.
func (s *Span) Add(power float64, m *Model, r *Result) {
	i, known := slices.BinarySearchFunc(s.points, power, func(p point, power float64) int { return cmp.Compare(p.power, power) })
	if !known {
		s.points = slices.Insert(s.points, i, point{power, r.Nozzle.Mean})
	}
	s.turned = s.turned || r.Turns(m)
}

// Ends gives the driest and the wettest mean content [kg/kg dry]. Where the strand drags its air through a bore they hold what the
// mouths of the bore could bring as well.
func (s *Span) Ends(w *March, m *Model, n Settings) (low, high float64, err error) {
	if low, high, err = s.scattered(w, m, n); err != nil {
		return 0, 0, err
	}
	open, bored := m.unboundedBores()
	if !bored {
		return low, high, nil
	}
	var r Result
	for _, power := range [...]float64{0, 1, -1} {
		varied := open.Scattered(power)
		if err := w.Run(&varied, n, &r); err != nil {
			return 0, 0, err
		}
		low, high = min(low, r.Nozzle.Mean), max(high, r.Nozzle.Mean)
	}
	return low, high, nil
}

// scattered gives the ends over the scatter of the diffusivity alone.
func (s *Span) scattered(w *March, m *Model, n Settings) (low, high float64, err error) {
	const alike = 1e-6 // of the content: nothing to seek
	low, high = s.ends()
	if !s.turned || high-low <= alike*high {
		return low, high, nil
	}
	f := &finder{span: s, march: w, model: m, settings: n}
	for _, power := range [...]float64{-1 + narrow, -0.5, 0.5, 1 - narrow} {
		if _, err := f.mean(power); err != nil {
			return 0, 0, err
		}
	}
	// What root.Least lowers must stay above zero.
	above := 1 + 2*high
	if err := f.seek(func(mean float64) float64 { return 1 + mean }); err != nil {
		return 0, 0, err
	}
	if err := f.seek(func(mean float64) float64 { return above - mean }); err != nil {
		return 0, 0, err
	}
	low, high = s.ends()
	return low, high, nil
}

func (s *Span) ends() (low, high float64) { return s.driest().mean, s.wettest().mean }

func (s *Span) driest() point {
	return slices.MinFunc(s.points, func(p, q point) int { return cmp.Compare(p.mean, q.mean) })
}

func (s *Span) wettest() point {
	return slices.MaxFunc(s.points, func(p, q point) int { return cmp.Compare(p.mean, q.mean) })
}

// slack is how much drier or wetter a march between those of the span may be, where they were sought [kg/kg dry].
func (s *Span) slack() float64 {
	if !s.turned {
		return 0
	}
	low, high := s.ends()
	return fine * (high - low)
}

// narrow is how near to the extreme a power of the scatter is sought, or fine how near to its content, as a
// share of the span.
const narrow, fine = 0.04, 3e-4

// finder makes the marches that a span needs besides.
type finder struct {
	span     *Span
	march    *March
	model    *Model
	settings Settings
	result   Result
}

// mean marches at a power of the scatter.
func (f *finder) mean(power float64) (float64, error) {
	m := f.model.Scattered(power)
	err := f.march.Run(&m, f.settings, &f.result)
	if err == nil {
		f.span.Add(power, &m, &f.result)
	}
	return f.result.Nozzle.Mean, err
}

// seek looks for a lower height between the neighbours of the lowest march.
func (f *finder) seek(height func(mean float64) float64) error {
	best, points := 0, f.span.points
	for i, p := range points {
		if height(p.mean) < height(points[best].mean) {
			best = i
		}
	}
	if best == 0 || best == len(points)-1 {
		return nil
	}
	a, m, b := points[best-1], points[best], points[best+1]
	low, high := f.span.ends()
	_, _, err := root.Least(func(power float64) (float64, error) {
		mean, err := f.mean(power)
		return height(mean), err
	}, root.Valley{
		A: a.power, M: m.power, B: b.power, AtA: height(a.mean), AtM: height(m.mean), AtB: height(b.mean),
	}, root.Tolerance{Value: fine * (high - low), Width: narrow})
	return err
}

// Turns tells whether the strand dries in one storage or zone and takes up water in another: the mean content at the nozzle may then be greatest or least at a diffusivity
// between two others.
func (r *Result) Turns(m *Model) bool {
	const told = 1e-6 // of the content: less is of the numbers
	dried, rewetted := false, false
	before := m.Start
	pass := func(now float64) {
		least := told * max(now, before)
		dried, rewetted = dried || now < before-least, rewetted || now > before+least
		before = now
	}
	for _, now := range r.stored {
		pass(now)
	}
	for i := range r.Zones {
		pass(r.Zones[i].Exit.Mean)
	}
	return dried && rewetted
}
