package diffusion

import (
	"math"

	"strandry/diffusion/root"
)

// Spread finds the driest and the wettest mean content at the nozzle [kg/kg dry] over the scatter
// of the diffusivity, from the marches at the scatter's factor, its square root, one, and
// both inverted. A path that dries and rewets may be driest or wettest at a diffusivity between
// them, where more marches seek it.
func (w *March) Spread(m *Model, s Settings) (low, high float64, err error) {
	var r Result
	if err := w.Run(m, s, &r); err != nil {
		return 0, 0, err
	}
	return w.spread(m, s, &r)
}

// spread is Spread where the march at factor one is known.
func (w *March) spread(m *Model, s Settings, central *Result) (low, high float64, err error) {
	mean := central.Nozzle.Mean
	d := scattered{march: w, model: m, settings: s, low: mean, high: mean, turned: central.turns()}
	means := [marches]float64{}
	driest, wettest := 0, 0
	for i := range marches {
		means[i] = mean
		if power := powerOf(i); power != 0 {
			if means[i], err = d.mean(power); err != nil {
				return 0, 0, err
			}
		}
		if means[i] < means[driest] {
			driest = i
		}
		if means[i] > means[wettest] {
			wettest = i
		}
	}
	const alike = 1e-6 // of the content: nothing to seek
	if d.high-d.low <= alike*d.high {
		return d.low, d.high, nil
	}
	// What root.Least lowers must stay above zero.
	above := 1 + 2*d.high
	if err := d.seek(driest, func(mean float64) float64 { return 1 + mean }); err != nil {
		return 0, 0, err
	}
	if err := d.seek(wettest, func(mean float64) float64 { return above - mean }); err != nil {
		return 0, 0, err
	}
	return d.low, d.high, nil
}

// powerOf is that of the scatter at which march i of so many is made: -1, -1/2, 0, 1/2, 1.
func powerOf(i int) float64 { return float64(i-marches/2) / (marches / 2) }

const marches = 5

// scattered are the marches of one model over the scatter.
type scattered struct {
	march     *March
	model     *Model
	settings  Settings
	result    Result
	low, high float64 // means so far
	turned    bool    // some march dries and rewets
}

// mean marches at a power of the scatter.
func (d *scattered) mean(power float64) (float64, error) {
	m := *d.model
	m.DiffusivityFactor *= math.Pow(m.Material.Diffusivity.Scatter.Value, power)
	if err := d.march.Run(&m, d.settings, &d.result); err != nil {
		return 0, err
	}
	mean := d.result.Nozzle.Mean
	d.turned = d.turned || d.result.turns()
	d.low, d.high = min(d.low, mean), max(d.high, mean)
	return mean, nil
}

// seek looks for a lower height around the best of the powers. At an end of the scatter there is
// nothing to find unless the path turns.
func (d *scattered) seek(best int, height func(mean float64) float64) error {
	before, after := max(best-1, 0), min(best+1, marches-1)
	if (before == best || after == best) && !d.turned {
		return nil
	}
	const width = 0.04
	_, _, err := root.Least(func(power float64) (float64, error) {
		mean, err := d.mean(power)
		return height(mean), err
	}, powerOf(before), powerOf(after), width)
	return err
}

// turns tells whether the strand dries in one zone and takes up water in another.
func (r *Result) turns() bool {
	dried, rewetted := false, false
	before := r.Start.Mean
	for i := range r.Zones {
		now := r.Zones[i].Exit.Mean
		dried, rewetted = dried || now < before, rewetted || now > before
		before = now
	}
	return dried && rewetted
}
