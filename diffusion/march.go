package diffusion

import (
	"fmt"
	"math"
	"slices"

	"strandry/diffusion/film"
	"strandry/diffusion/parallel"
	"strandry/diffusion/radial"
	"strandry/diffusion/rosenbrock"
	"strandry/materials/humidair"
)

// March owns the working memory for running models, one after another. It
// allocates nothing once it has seen a model of the same shape. The zero value is ready for use, by one
// goroutine at a time; it must not be copied after that.
type March struct {
	grids *grids
	main  strand
	side  strand        // for what branches off, see RunLengths
	drawn [][][]float64 // where odds ask, by the number of unknowns

	forOdds *March   // what finds the odds while this one marches
	more    []*March // what marches draws at the same time
}

// strand is one cross-section on its way, with what it is in.
type strand struct {
	cylinder  radial.March
	crossing  crossing
	around    surroundings
	exchange  radial.Exchange
	potential radial.Exponential
	model     *Model
	gaps      []float64 // relative radii of the gaps of the grid
	saved     []float64
	laws      laws
	observed  func(t float64, c []float64)
	hottest   float64 // mean temperature of the section in the zone so far [K]
	floor     float64 // smallest scale of the error of a step [kg/kg dry]
	trace     *Trace  // nil for none

	similarBalances  []airBalance // of the zones of a similar path, from which those of this one are sought; nil for none
	similar, balance airBalance   // of the zone at hand: there, and as found
}

// NewMarch makes the working memory.
func NewMarch() *March { return marchOn(newGrids()) }

// Marches are as many as there are cores, no more than there are things to march (at least one).
func Marches(things int) []*March {
	out := make([]*March, parallel.Cores(things))
	for i := range out {
		out[i] = NewMarch()
	}
	return out
}

// marchOn shares grids with others.
func marchOn(g *grids) *March {
	w := &March{grids: g}
	w.connect()
	return w
}

// equip readies a zero value.
func (w *March) equip() {
	if w.grids == nil {
		w.grids = newGrids()
		w.connect()
	}
}

// connect tells the solvers what surrounds the strand and who watches.
func (w *March) connect() {
	for _, l := range [2]*strand{&w.main, &w.side} {
		l.exchange = l.around.flux
		l.crossing.grids = w.grids
		l.observed = l.watch
		l.crossing.observed = l.observe
	}
}

// Run follows the strand through its storage and its path and fills result,
// whose memory it reuses. A model that is not sound is refused, see [Model.Check].
func (w *March) Run(m *Model, s Settings, result *Result) error {
	return w.run(m, s, nil, result)
}

// RunFrom is Run from what a similar model has found: where air and strand have to agree, that is sought from where they did there, which
// saves marches. It moves the result within the error of that balance. What has no answer from there is sought as by Run.
func (w *March) RunFrom(similar *Result, m *Model, s Settings, result *Result) error {
	return w.runFrom(slices.Clone(similar.balances), m, s, result)
}

func (w *March) runFrom(similarBalances []airBalance, m *Model, s Settings, result *Result) error {
	err := w.run(m, s, similarBalances, result)
	if err != nil && similarBalances != nil {
		err = w.run(m, s, nil, result)
	}
	return err
}

func (w *March) run(m *Model, s Settings, similarBalances []airBalance, result *Result) error {
	s, err := w.checked(m, s)
	if err != nil {
		return err
	}
	g, err := w.grid(m, s)
	if err != nil {
		return err
	}
	l := &w.main
	if l.similarBalances = similarBalances; len(similarBalances) != len(m.Path) {
		l.similarBalances = nil
	}
	if err := l.begin(m, s, g, result); err != nil {
		return err
	}
	if err := l.along(0, len(m.Path), s, result); err != nil {
		return err
	}
	return result.finish(l)
}

// set readies a strand for a model on a grid.
func (l *strand) set(m *Model, s Settings, g *radial.Grid) {
	l.model, l.floor = m, s.floor(m)
	l.potential = radial.Exponential(m.Material.Diffusivity.Beta.Value)
	l.around.radius = m.Radius
	l.around.dissolve(&m.Material)
	l.gaps = l.gaps[:0]
	for i := range g.Len() - 1 {
		l.gaps = append(l.gaps, g.Gap(i))
	}
}

// begin takes the strand through its storage.
func (l *strand) begin(m *Model, s Settings, g *radial.Grid, result *Result) error {
	l.set(m, s, g)
	l.cylinder.Start(g, m.Start)
	l.crossing.current = false
	l.around.thermal.rest(m.StartTemperature)
	result.reset(m)
	for i := range m.Storage {
		if err := l.pass(&m.Storage[i], s, nil); err != nil {
			return fmt.Errorf("zone %q: %w", m.Storage[i].Name, err)
		}
	}
	l.cylinder.Lost = 0
	result.Start = l.state()
	return nil
}

// along takes the strand through the zones from first to before last.
func (l *strand) along(first, last int, s Settings, result *Result) error {
	for i := first; i < last; i++ {
		z := &l.model.Path[i]
		result.Zones = append(result.Zones, ZoneResult{})
		if l.balance = (airBalance{}); l.similarBalances != nil {
			l.similar = l.similarBalances[i]
		}
		err := l.pass(z, s, &result.Zones[i])
		l.similar = airBalance{}
		if err != nil {
			return fmt.Errorf("zone %q: %w", z.Name, err)
		}
		result.balances = append(result.balances, l.balance)
	}
	return nil
}

// grid finds a grid whose surface spacing is the thinnest skin over the resolution.
// Stretches are kept to steps of a half, so that few grids serve many models. Where the
// diffusivity grows more than e⁴ fold up to the wettest content, fronts are steep: the
// grid is lumped, which keeps them from drawing the dry side down, and has twice the nodes.
func (w *March) grid(m *Model, s Settings) (*radial.Grid, error) {
	skin, temperature := 1.0, m.StartTemperature
	for _, zones := range [2][]Zone{m.Storage, m.Path} {
		for i := range zones {
			skin = min(skin, zones[i].skin(m, &temperature))
		}
	}
	const leastStretch, thinnest = 2.5, 1e-5
	stretch := math.Asinh(1 / math.Max(skin, thinnest))
	stretch = math.Max(leastStretch, math.Round(2*stretch)/2)
	key := gridKey{stretch: stretch}
	more := 1.0
	if m.steep() {
		key.lumped, more = true, 2
	}
	key.nodes = int(math.Ceil(s.Resolution * stretch * more))
	return w.grids.along(key)
}

// steep tells that the diffusivity grows so much with the content that fronts are steep.
func (m *Model) steep() bool {
	const gentle = 4
	return m.growth() > gentle
}

// growth is the logarithm of how much the diffusivity grows up to the wettest content of the way.
func (m *Model) growth() float64 { return m.Material.Diffusivity.Beta.Value * m.wettest() }

// wettest is the greatest content that the strand sets off with or that an air of its way allows [kg/kg].
func (m *Model) wettest() float64 {
	wettest := m.Start
	for _, zones := range [2][]Zone{m.Storage, m.Path} {
		for i := range zones {
			wettest = max(wettest, zones[i].wettest(m))
		}
	}
	return wettest
}

// skin is the depth √(D t)/R that diffusion reaches in a zone, for the dry polymer at the
// temperature that the strand leaves it with, lumped; it moves the temperature
// [K] on to that.
func (z *Zone) skin(m *Model, temperature *float64) float64 {
	heat := z.Film.Heat
	if heat == 0 {
		heat = usualHeat
	}
	t := z.Residence(m.Speed)
	rate := 2 * heat / (m.Material.Density.Value * m.Material.HeatCapacity.Value * m.Radius)
	*temperature = z.Air.Temperature + (*temperature-z.Air.Temperature)*math.Exp(-rate*t)
	return math.Sqrt(m.Material.Diffusivity.Dry(*temperature)*t) / m.Radius
}

// wettest is the content that the air of a zone allows as it is supplied [kg/kg].
func (z *Zone) wettest(m *Model) float64 {
	_, vapour := m.Inflow(z)
	vapour = max(vapour, z.Air.Relax.From)
	t := z.Air.Temperature
	return m.Material.Sorption.Content(vapour/humidair.SaturationPressure(t), t)
}

// usualHeat is a film coefficient to choose a grid by where none is given [W/(m² K)].
const usualHeat = 25

// pass takes the strand through one zone; out may be nil.
func (l *strand) pass(z *Zone, s Settings, out *ZoneResult) error {
	coefficients, err := l.enter(z, s)
	if err != nil {
		return err
	}
	before := l.cylinder.Lost
	l.trace.mark(l)
	if err := l.through(z, s); err != nil {
		return err
	}
	l.leave(&l.around, z, coefficients, before, out)
	return nil
}

// enter sets the surroundings of a zone and its clock.
func (l *strand) enter(z *Zone, s Settings) (film.Coefficients, error) {
	m, a := l.model, &l.around
	entered := a.thermal.mean()
	c, err := filmAt(z, m, entered)
	if err != nil {
		return c, err
	}
	if a.film, err = l.laws.exchange(z, m, entered); err != nil {
		return c, err
	}
	capacity := m.Material.Density.Value * m.Material.HeatCapacity.Value
	l.cylinder.Time = 0 // each zone has its own clock
	base, ok := a.thermal.goesOn(surface{lasting(z, m), z.Film.Heat, z.Film.Mass, z.Film.HeatFactor, z.Film.MassFactor})
	if !ok {
		base = c.Heat
	}
	err = a.thermal.enter(z.Air.Temperature, base, m.Radius,
		m.Material.Conductivity.Value, capacity, s, l.gaps)
	l.cylinder.Beside = a.thermal.entry.beside
	a.forget()
	if err == nil {
		err = l.prepare(z.Contact, s)
	}
	a.perDensity = z.Contact.film() / (m.Material.Density.Value * m.Radius)
	a.leaves = m.Material.Density.Value * m.Radius
	if s.WithoutEvaporation {
		a.leaves = 0
	}
	if centre := (entered + z.Air.Temperature) / 2; a.latent.centre != centre && !a.alone() {
		a.latent = latentNear(centre)
	}
	a.supply = l.supply(z)
	l.cylinder.Gathered, l.hottest = 0, entered
	l.cylinder.Observe = l.observed
	if a.alone() && l.trace == nil { // the strand is hottest at an end of the zone
		l.cylinder.Observe = nil
	}
	return c, err
}

// watch is shown every step.
func (l *strand) watch(t float64, c []float64) {
	l.hottest = max(l.hottest, l.around.thermal.meanAt(t, l.cylinder.Beside))
	if l.trace != nil {
		l.trace.add(l, t, c)
	}
}

// leave hands the temperature on and tells of the zone. The surroundings are those
// that the strand has been in, its own or those which it branched from.
func (l *strand) leave(a *surroundings, z *Zone, c film.Coefficients, before float64, out *ZoneResult) {
	a.thermal.leave(l.cylinder.Time, l.cylinder.Beside)
	if a != &l.around {
		l.around.thermal.entry.take(&a.thermal.entry)
	}
	if out == nil {
		return
	}
	*out = ZoneResult{
		Name: z.Name, Length: z.Length, Residence: z.Residence(l.model.Speed), Exit: l.state(),
		Hottest:        max(l.hottest, l.around.thermal.mean()),
		AirTemperature: z.Air.Temperature, Film: c,
		Biot: a.thermal.biot, Resolved: a.thermal.resolved, Fourier: l.cylinder.Gathered,
		Contact: z.Contact, Behind: l.behind(),
	}
	_, entering := l.model.Inflow(z)
	out.air(l.model, a, entering, l.cylinder.Lost, l.cylinder.Lost-before, c.Heat)
}

func (l *strand) problem() radial.Problem {
	if l.around.alone() {
		return radial.Problem{Conductance: &l.around, Potential: &l.potential, Surface: l.exchange}
	}
	return radial.Problem{Potential: &l.potential, Companion: (*coupled)(&l.around)}
}

// numerics turn settings into those of the solver.
func (l *strand) numerics(z *Zone, s Settings) rosenbrock.Settings {
	n := rosenbrock.Settings{Tolerance: s.Tolerance, Floor: l.floor}
	if z.Contact.Fixed() || s.boundedSteps {
		n.MaxSteps = patience(s.Tolerance) // of many nodes each, or of many marches
	}
	if l.trace != nil {
		n.MaxStep = z.Residence(l.model.Speed) / traced
	}
	return n
}

func (l *strand) state() State { return l.stateOf(l.cylinder.C, l.around.thermal.mean()) }
