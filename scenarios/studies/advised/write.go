package advised

import (
	"math"

	"strandry/diffusion/advice"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/scenarios"
)

// form is how a number of the file is written: its key, and its unit. The steps are even, or those of its decade.
type form struct {
	key       string
	dimension quantity.Dimension
	unit      string
	step      float64 // in the unit; zero for those of the decade
}

// write gives a part its key, its words and what they mean in SI; false where that is no change.
func (d draft) write(kind advice.Kind, p *advice.Part) bool {
	if p.Zone < 0 {
		return d.feed(p)
	}
	switch kind {
	case advice.Longer, advice.Shorter:
		unit := "m"
		if p.To < 1 {
			unit = "mm"
		}
		return form{key: d.ZoneKey(p.Zone, "length"), dimension: quantity.Length(), unit: unit}.write(p)
	case advice.Hotter, advice.Cooler:
		return form{d.ZoneKey(p.Zone, "temperature"), quantity.Temperature(), "°C", 5}.write(p)
	case advice.MoreAir:
		if d.Model.Path[p.Zone].Air.Blown {
			return form{key: d.ZoneKey(p.Zone, "air.speed"), dimension: quantity.Speed(), unit: "m/s"}.write(p)
		}
		return form{key: d.ZoneKey(p.Zone, "air.flow"), dimension: quantity.VolumeFlow(), unit: "L/min"}.write(p)
	}
	return d.air(d.ZoneKey(p.Zone, "air"), p)
}

// air writes how dry the air of a zone is, as the file says it: by its humidity or its vapour pressure, else by its dew point.
func (d draft) air(path string, p *advice.Part) bool {
	if k, _ := d.Key(path + ".humidity"); k.Known {
		return form{key: path + ".humidity", dimension: quantity.Fraction(), unit: "%"}.write(p)
	}
	if k, _ := d.Key(path + ".vapour_pressure"); k.Known {
		return form{key: path + ".vapour_pressure", dimension: quantity.Pressure(), unit: "Pa"}.write(p)
	}
	dew := *p
	dew.From, dew.To, dew.Bound = humidair.DewPoint(p.From), humidair.DewPoint(p.To), humidair.DewPoint(p.Bound)
	if !(form{path + ".dew_point", quantity.Temperature(), "°C", 5}).write(&dew) {
		return false
	}
	p.Key, p.Was, p.Is, p.To = dew.Key, dew.Was, dew.Is, humidair.SaturationPressure(dew.To)
	return true
}

// feed writes the feed as the file states it, which may be by what it lays down.
func (d draft) feed(p *advice.Part) bool {
	k := d.FeedKey()
	own, f := *p, form{key: k.Name, dimension: quantity.Speed(), unit: "mm/s"}
	if k.Name == "feed.flow" {
		f.dimension, f.unit = quantity.VolumeFlow(), "mm3/s"
	}
	own.From, own.To, own.Bound = k.Value, k.Value*p.To/p.From, k.Value*p.Bound/p.From
	if !f.write(&own) {
		return false
	}
	s, err := d.With(scenarios.Setting{Key: own.Key, Value: own.Is})
	if err != nil {
		return false
	}
	p.Key, p.Was, p.Is, p.To = own.Key, own.Was, own.Is, s.Model.Speed
	return true
}

// write rounds a part away from what is drawn, and where that would be beyond its bound, the bound towards what is drawn.
func (f form) write(p *advice.Part) bool {
	const digits, few = 4, 3
	up := p.To > p.From
	in := func(si float64) float64 {
		x, _ := f.dimension.In(si, f.unit)
		return x
	}
	beyond := func(x, y float64) bool { return up && x > y || !up && x < y }
	const slack = 1e-9
	to, bound := f.round(in(p.To), up), in(p.Bound)
	if beyond(to, bound+slack*math.Copysign(bound, p.To-p.From)) {
		to = quantity.Outward(bound, few, !up)
	}
	p.Key, p.Was = f.key, f.dimension.Format(p.From, f.unit, digits)
	p.Is = quantity.Number(to, digits) + " " + f.unit
	si, err := f.dimension.Parse(p.Is)
	if err != nil || !beyond(si, p.From) {
		return false
	}
	p.To = si
	return true
}

// round goes up or down to a step: of a number of 1 to 2 a tenth, of 2 to 5 a fifth, of 5 to 10 a half.
func (f form) round(x float64, up bool) float64 {
	step := f.step
	if step == 0 {
		decade := math.Pow10(int(math.Floor(math.Log10(x) + 1e-9)))
		switch {
		case x < 2*decade:
			step = decade / 10
		case x < 5*decade:
			step = decade / 5
		default:
			step = decade / 2
		}
	}
	const slack = 1e-6 // of a step
	if up {
		return step * math.Ceil(x/step-slack)
	}
	return step * math.Floor(x/step+slack)
}
