package diffusion

import (
	"fmt"

	"strandry/materials"
	"strandry/materials/humidair"
)

// Design is a strand on its way and what is asked of it: what [March.Assess] judges and [March.Odds] draw.
type Design struct {
	Model
	Target

	// Given are unknowns besides those that [Design.Unknowns] finds in the material and the films.
	Given []Given
}

// Target is how wet the strand may be as it reaches the nozzle, and what becomes of the water there. No march depends on it.
type Target struct {
	Limit             float64           // greatest mean content at the nozzle [kg/kg dry], 1e-9 to 10
	LimitStated       bool              // by the one who asks, whatever the material's own limits
	LimitRange        materials.Range   // of a stated one, between which it lies nine times in ten [kg/kg dry]; zero where it is certain
	Purpose           materials.Purpose // which of the material's own limits Limit is, unless it is stated
	NozzleTemperature float64           // of the melt [K], 213.15 to 1000
}

// SetMaterial puts a polymer in the place of the material, with its own limit for the design's purpose and its own nozzle temperature.
func (d *Design) SetMaterial(p *materials.Polymer) {
	d.Material, d.Limit, d.LimitStated, d.NozzleTemperature = *p, p.Limit(d.Purpose).Value, false, p.NozzleTemperature.Value
}

// Check tells the first thing that makes a design unfit to be judged, see [Model.Check].
func (d *Design) Check() error {
	if err := d.Model.Check(); err != nil {
		return err
	}
	if err := between("limit [kg/kg]", d.Limit, 1e-9, 10); err != nil {
		return err
	}
	for _, g := range d.Given {
		if g.Change == nil {
			return fmt.Errorf("unknown %q: allowed is one with a Change", g.Name)
		}
	}
	return between("nozzle temperature [K]", d.NozzleTemperature, 213.15, 1000)
}

// LimitInDoubt is the limit [kg/kg dry] with the ends between which it lies nine times in ten: those of the material for its own limit, those of
// LimitRange for a stated one, else the limit itself.
func (d *Design) LimitInDoubt() materials.Value {
	if own := d.Material.Limit(d.Purpose); !d.LimitStated && own.Value == d.Limit {
		return own
	}
	if r := d.LimitRange; r.Min < d.Limit && d.Limit < r.Max {
		return materials.Value{Value: d.Limit, Low: r.Min, High: r.Max}
	}
	return materials.Value{Value: d.Limit, Low: d.Limit, High: d.Limit}
}

// SteamPerVolume is the volume of steam that a content [kg/kg dry] makes at the
// nozzle's temperature and the air's pressure, for each volume of polymer: an ideal gas,
// and the density of the solid for that of the melt (which is a tenth or so
// lower).
func (d *Design) SteamPerVolume(content float64) float64 {
	return content * d.Material.Density.Value * humidair.VapourConstant * d.NozzleTemperature / d.AirPressure()
}
