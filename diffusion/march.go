package diffusion

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"strandry/diffusion/radial"
	"strandry/materials/humidair"
)

// March owns the working memory for running models, one after another. It
// allocates nothing once it has seen a model of the same shape. Not for use by two
// goroutines at once.
type March struct {
	cylinder  radial.March
	grids     map[gridKey]*radial.Grid
	around    surroundings
	exchange  radial.Exchange
	potential radial.Exponential
	model     *Model
	gaps      []float64
	saved     []float64
	fourier   fourier
}

type gridKey struct {
	nodes   int
	stretch float64
}

// NewMarch makes the working memory.
func NewMarch() *March {
	w := &March{grids: map[gridKey]*radial.Grid{}}
	w.exchange = w.around.flux
	quad.Legendre{}.FixedLocations(w.around.thermal.place[:], w.around.thermal.share[:], 0, 1)
	w.cylinder.Observe = w.observe
	return w
}

// Run follows the strand through its storage and its path and fills result,
// whose memory it reuses. The model must be sound: Check tells.
func (w *March) Run(m *Model, s Settings, result *Result) error {
	w.model = m
	g, err := w.grid(m, s)
	if err != nil {
		return err
	}
	w.cylinder.Start(g, m.Start)
	w.potential = radial.Exponential(m.Material.Diffusivity.Beta.Value)
	a := &w.around
	a.radius, a.factor = m.Radius, m.DiffusivityFactor
	a.diffusivity, a.sorption = &m.Material.Diffusivity, &m.Material.Sorption
	a.thermal.rest(m.StartTemperature)

	result.reset(m, s)
	for i := range m.Storage {
		if err := w.pass(&m.Storage[i], s, nil); err != nil {
			return fmt.Errorf("storage %q: %w", m.Storage[i].Name, err)
		}
	}
	w.cylinder.Lost = 0
	result.Start = w.state()
	for i := range m.Path {
		result.Zones = append(result.Zones, ZoneResult{})
		if err := w.pass(&m.Path[i], s, &result.Zones[i]); err != nil {
			return fmt.Errorf("zone %q: %w", m.Path[i].Name, err)
		}
	}
	result.finish(w, m)
	return nil
}

// grid finds a grid whose surface spacing is the thinnest skin over the resolution.
// Stretches are kept to steps of a half, so that few grids serve many models.
func (w *March) grid(m *Model, s Settings) (*radial.Grid, error) {
	skin := 1.0
	for _, zones := range [2][]Zone{m.Storage, m.Path} {
		for i := range zones {
			z := &zones[i]
			d := m.DiffusivityFactor * m.Material.Diffusivity.Dry(z.Air.Temperature)
			skin = math.Min(skin, math.Sqrt(d*z.Residence(m.Speed))/m.Radius)
		}
	}
	const leastStretch, thinnest = 2.5, 1e-5
	stretch := math.Asinh(1 / math.Max(skin, thinnest))
	stretch = math.Max(leastStretch, math.Round(2*stretch)/2)
	key := gridKey{nodes: int(math.Ceil(s.Resolution * stretch)), stretch: stretch}
	if g, ok := w.grids[key]; ok {
		return g, w.relate(g)
	}
	g, err := radial.NewGrid(1, key.nodes, stretch)
	if err != nil {
		return nil, err
	}
	w.grids[key] = g
	return g, w.relate(g)
}

func (w *March) relate(g *radial.Grid) error {
	w.gaps = w.gaps[:0]
	for i := range g.Len() - 1 {
		w.gaps = append(w.gaps, g.Gap(i))
	}
	return nil
}

// pass takes the strand through one zone; out may be nil.
func (w *March) pass(z *Zone, s Settings, out *ZoneResult) error {
	m, a := w.model, &w.around
	start := w.cylinder.Time
	entered := a.thermal.mean()
	coefficients, err := filmAt(z, m, entered)
	if err != nil {
		return err
	}
	capacity := m.Material.Density.Value * m.Material.HeatCapacity.Value
	if err := a.thermal.enter(start, z.Air.Temperature, coefficients.Heat, m.Radius,
		m.Material.Conductivity.Value, capacity, s.Heat, w.gaps); err != nil {
		return err
	}
	a.now, a.temperature = math.NaN(), math.NaN()
	a.transfer = z.Exposed * coefficients.Mass / (m.Material.Density.Value * m.Radius)
	w.fourier = fourier{}
	before := w.cylinder.Lost
	residence := z.Residence(m.Speed)
	if err := w.through(z, residence, s); err != nil {
		return err
	}
	a.thermal.leave(w.cylinder.Time)
	if out != nil {
		*out = ZoneResult{
			Name: z.Name, Length: z.Length, Residence: residence, Exit: w.state(),
			AirTemperature: z.Air.Temperature, Film: coefficients,
			Biot: a.thermal.biot, Resolved: a.thermal.resolved, Fourier: w.fourier.sum,
		}
		out.air(m, a, w.cylinder.Lost, w.cylinder.Lost-before, coefficients.Heat)
	}
	return nil
}

// through marches the zone against its air. Air that meets the strand in the
// order in which it took up water is one march; otherwise its state rests on the
// total that the zone gives off, which is sought until it agrees with itself to
// a millionth of the content.
func (w *March) through(z *Zone, residence float64, s Settings) error {
	a, c := &w.around, &w.cylinder
	supply := w.supply(z)
	a.supply = supply
	if !supply.limited || z.Air.Direction == With {
		return w.advance(residence, s)
	}
	w.saved = append(w.saved[:0], c.C...)
	time, lost := c.Time, c.Lost
	given := func(total float64) (float64, error) {
		copy(c.C, w.saved)
		c.Time, c.Lost, w.fourier = time, lost, fourier{}
		a.now, a.temperature = math.NaN(), math.NaN()
		a.supply = supply
		a.supply.base += supply.gain * total
		a.supply.gain = 0
		if z.Air.Direction == Against {
			a.supply.gain = -supply.gain
		}
		err := w.advance(residence, s)
		return c.Lost - lost - total, err
	}
	return agree(given, 1e-6*math.Max(w.cylinder.Grid.Content(w.saved), 1e-6))
}

func (w *March) advance(residence float64, s Settings) error {
	return w.cylinder.Advance(radial.Problem{
		Conductance: &w.around, Potential: &w.potential, Surface: w.exchange,
	}, residence, radial.Settings{Tolerance: s.Tolerance, Floor: floor(w.model)})
}

// floor is the content below which the error of a step is not relative any more
// [kg/kg]: a thousandth of the limit.
func floor(m *Model) float64 { return 1e-3 * m.Limit }

// supply describes the air of a zone as the strand meets it first.
func (w *March) supply(z *Zone) airSupply {
	m := w.model
	a := airSupply{pressure: z.Air.VapourPressure, total: m.Pressure, entered: w.cylinder.Lost}
	if z.Air.DryFlow > 0 && z.Length > 0 {
		a.limited = true
		a.base = humidair.HumidityRatio(z.Air.VapourPressure, m.Pressure)
		a.gain = 2 * math.Pi * m.Radius * m.Radius * m.Material.Density.Value * m.Speed / z.Air.DryFlow
	}
	return a
}

// agree seeks x with |f(x)| <= tolerance for a falling f by the Illinois form of
// regula falsi, from the bracket between zero and f(0).
func agree(f func(x float64) (float64, error), tolerance float64) error {
	low, high := 0.0, 0.0
	atLow, err := f(low)
	if err != nil || math.Abs(atLow) <= tolerance {
		return err
	}
	high = atLow
	atHigh, err := f(high)
	for range 60 {
		if err != nil || math.Abs(atHigh) <= tolerance {
			return err
		}
		x := high - atHigh*(high-low)/(atHigh-atLow)
		var at float64
		at, err = f(x)
		if (at > 0) == (atHigh > 0) {
			atLow /= 2
		} else {
			low, atLow = high, atHigh
		}
		high, atHigh = x, at
	}
	return fmt.Errorf("the humidity of the air and the water given off do not agree after 60 rounds")
}

// fourier gathers ∫ D dt/R² at the mean content, by trapezia over the steps.
type fourier struct{ sum, time, pace float64 }

func (w *March) observe(t float64, c []float64) {
	a := &w.around
	a.refresh(t)
	pace := a.conductance * math.Exp(float64(w.potential)*w.cylinder.Grid.Mean(c))
	if w.fourier.time == 0 {
		w.fourier.time, w.fourier.pace = w.cylinder.Time, pace
	}
	w.fourier.sum += (t - w.fourier.time) * (pace + w.fourier.pace) / 2
	w.fourier.time, w.fourier.pace = t, pace
}

func (w *March) state() State {
	g, c := w.cylinder.Grid, w.cylinder.C
	return State{
		Mean: g.Mean(c), Centre: g.Centre(c), Skin: c[len(c)-1],
		Temperature: w.around.thermal.mean(),
	}
}
