package advice

import (
	"cmp"
	"slices"
	"sync"

	"strandry/diffusion"
	"strandry/materials"
)

// Kind is a thing that can be changed.
type Kind int

// The levers, in the order in which equals are listed.
const (
	Longer Kind = iota
	Shorter
	Slower
	Faster
	Hotter
	Drier
	MoreAir
	Covered
	Thinner
	OtherMaterial
	Cooler
)

func (k Kind) String() string {
	return [...]string{"longer", "shorter", "slower", "faster", "hotter", "drier air", "more air", "covered", "thinner", "another material", "cooler"}[k]
}

// Lever is one change and what it brings.
type Lever struct {
	Kind     Kind
	Zone     string  // whose property is changed; "" for the whole
	From, To float64 // the property before and after, SI: length [m], speed [m/s], temperature [K], vapour pressure [Pa], flow [kg/s], diameter [m]
	Material string  // the other material's [materials.Polymer.Label]
	Mean     float64 // content at the nozzle with the change [kg/kg dry]
	Limit    float64 // limit that holds then [kg/kg dry]
	Survives diffusion.Survival
}

// Dry tells that the change brings the strand to its limit, and that it does not soften.
func (l Lever) Dry() bool { return l.Mean <= l.Limit && l.Survives != diffusion.Softens }

// Ratio is the content over the limit.
func (l Lever) Ratio() float64 { return l.Mean / l.Limit }

// The ways that levers are taken.
const (
	hotterBy    = 20.0 // [K], or up to the usual drying temperature
	dryVapour   = 12.8 // [Pa]: saturation over ice at -40 °C
	drierBy     = 1.02 // less is no change
	thinRadius  = 0.875e-3
	thinTrigger = 1.05 // a strand this many times thicker can be made thinner
)

// Find diagnoses a design from its assessment. Length and flow are doubled, the
// speed is halved (where a zone wets the strand that zone is halved and the speed doubled too), the
// temperature rises by 20 K or to the usual drying temperature, no further than the strand bears, the air is dried
// to a frost point of -40 °C; each in the zone of [Diagnosis.Dryer]. A thinner strand keeps the volume flow. Another
// material starts at the same water activity, one at most, and is dried as [Reheat] says. Where the heat is more
// than the strand bears, or may be, it is tried how dry it gets at what it bears. A change that cannot be
// marched, or with which the strand softens, is no lever and is left out.
func Find(w *diffusion.March, m *diffusion.Model, a *diffusion.Assessment, others []materials.Polymer) Diagnosis {
	d := Diagnose(w, m, a)
	f := finder{march: w, settings: a.Settings.Coarser(), best: d.Dryer}
	materials := finder{march: diffusion.NewMarch(), settings: f.settings, best: f.best}
	var meanwhile sync.WaitGroup
	meanwhile.Go(func() { materials.material(m, others) })
	f.pull(m, Lever{Kind: Longer, From: m.Path[f.best].Length, To: 2 * m.Path[f.best].Length},
		func(m *diffusion.Model, z *diffusion.Zone) { z.Length *= 2 })
	f.pull(m, Lever{Kind: Slower, From: m.Speed, To: m.Speed / 2},
		func(m *diffusion.Model, _ *diffusion.Zone) { m.Speed /= 2 })
	f.wets(m, a)
	f.hotter(m)
	f.air(m)
	f.cover(m, a)
	f.thinner(m)
	d.Levers = sorted(f.found)
	f.found = nil
	if f.cooler(m, a); len(f.found) > 0 {
		d.Cooler = &f.found[0]
	}
	meanwhile.Wait()
	d.Materials = sorted(materials.found)
	return d
}

type finder struct {
	march    *diffusion.March
	settings diffusion.Settings
	best     int
	found    []Lever
	result   diffusion.Result
}

// pull runs a copy of the model with one change and keeps the lever.
func (f *finder) pull(m *diffusion.Model, l Lever, change func(*diffusion.Model, *diffusion.Zone)) {
	varied := *m
	varied.Path = slices.Clone(m.Path)
	change(&varied, &varied.Path[f.best])
	if err := f.march.Run(&varied, f.settings, &f.result); err != nil {
		return
	}
	switch l.Kind {
	case Shorter, Slower, Faster, Thinner, OtherMaterial, Cooler:
	default:
		l.Zone = m.Path[f.best].Name
	}
	l.Mean, l.Limit, l.Survives = f.result.Nozzle.Mean, varied.Limit, f.result.Survives(&varied)
	if l.Survives == diffusion.Softens && l.Kind != OtherMaterial {
		return
	}
	f.found = append(f.found, l)
}

// wets shortens the zone in which the strand takes up most water, and its stay.
func (f *finder) wets(m *diffusion.Model, a *diffusion.Assessment) {
	wettest, most, before := -1, 0.0, a.Start.Mean
	for i, z := range a.Zones {
		if rise := z.Exit.Mean - before; rise > most {
			wettest, most = i, rise
		}
		before = z.Exit.Mean
	}
	if wettest < 0 {
		return
	}
	z := m.Path[wettest]
	f.pull(m, Lever{Kind: Shorter, Zone: z.Name, From: z.Length, To: z.Length / 2},
		func(m *diffusion.Model, _ *diffusion.Zone) { m.Path[wettest].Length /= 2 })
	f.pull(m, Lever{Kind: Faster, From: m.Speed, To: 2 * m.Speed},
		func(m *diffusion.Model, _ *diffusion.Zone) { m.Speed *= 2 })
}

func (f *finder) hotter(m *diffusion.Model) {
	now, usual := m.Path[f.best].Air.Temperature, m.Material.HottestDrying()
	to := min(now+hotterBy, usual)
	if to <= now {
		return
	}
	f.pull(m, Lever{Kind: Hotter, From: now, To: to},
		func(_ *diffusion.Model, z *diffusion.Zone) { z.Air = z.Air.At(to) })
}

// cooler sets what is hotter than the strand bears to the highest temperature at which it is dried unasked.
func (f *finder) cooler(m *diffusion.Model, a *diffusion.Assessment) {
	if a.Endurance.Survival == diffusion.Holds {
		return
	}
	bears, to := m.Material.GivesWay().Min, m.Material.HottestDrying()
	hottest := 0
	for i := range m.Path {
		if m.Path[i].Air.Temperature > m.Path[hottest].Air.Temperature {
			hottest = i
		}
	}
	now := m.Path[hottest].Air.Temperature
	if now <= bears {
		return
	}
	f.pull(m, Lever{Kind: Cooler, Zone: m.Path[hottest].Name, From: now, To: to}, func(m *diffusion.Model, _ *diffusion.Zone) {
		for i := range m.Path {
			if air := &m.Path[i].Air; air.Temperature > bears {
				*air = air.At(to)
			}
		}
	})
}

func (f *finder) air(m *diffusion.Model) {
	if now := m.Path[f.best].Air; now.VapourPressure > drierBy*dryVapour {
		f.pull(m, Lever{Kind: Drier, From: now.VapourPressure, To: dryVapour},
			func(_ *diffusion.Model, z *diffusion.Zone) { z.Air = z.Air.Supplied(dryVapour) })
	}
	if now := m.DryFlow(&m.Path[f.best]); now > 0 {
		f.pull(m, Lever{Kind: MoreAir, From: now, To: 2 * now},
			func(_ *diffusion.Model, z *diffusion.Zone) { z.Air = z.Air.Flowing(2 * now) })
	}
}

// cover gives the zones after the dryer its vapour pressure.
func (f *finder) cover(m *diffusion.Model, a *diffusion.Assessment) {
	if f.best == len(m.Path)-1 || a.Nozzle.Mean <= a.Zones[f.best].Exit.Mean {
		return
	}
	dry := m.Path[f.best].Air.VapourPressure
	if !slices.ContainsFunc(m.Path[f.best+1:], func(z diffusion.Zone) bool { return z.Air.VapourPressure > drierBy*dry }) {
		return
	}
	f.pull(m, Lever{Kind: Covered, From: m.Path[len(m.Path)-1].Air.VapourPressure, To: dry},
		func(m *diffusion.Model, _ *diffusion.Zone) {
			for i := f.best + 1; i < len(m.Path); i++ {
				air := &m.Path[i].Air
				if *air = air.Endless(); air.VapourPressure > dry {
					*air = air.Supplied(dry)
				}
			}
		})
}

func (f *finder) thinner(m *diffusion.Model) {
	if m.Radius < thinRadius*thinTrigger {
		return
	}
	f.pull(m, Lever{Kind: Thinner, From: 2 * m.Radius, To: 2 * thinRadius},
		func(m *diffusion.Model, _ *diffusion.Zone) {
			m.Speed *= m.Radius * m.Radius / (thinRadius * thinRadius)
			m.Radius = thinRadius
		})
}

// material tries each of the others.
func (f *finder) material(m *diffusion.Model, others []materials.Polymer) {
	activity := min(1, m.Material.Sorption.Activity(m.Start, m.StartTemperature))
	for i := range others {
		p := &others[i]
		if p.Same(&m.Material) {
			continue
		}
		f.pull(m, Lever{Kind: OtherMaterial, Material: p.Label()}, func(m *diffusion.Model, _ *diffusion.Zone) {
			m.Take(p)
			m.Start = p.Sorption.Content(activity, m.StartTemperature)
			Reheat(m, m.StartTemperature)
		})
	}
}

func sorted(all []Lever) []Lever {
	slices.SortStableFunc(all, func(x, y Lever) int { return cmp.Compare(x.Ratio(), y.Ratio()) })
	return all
}

// heatedAbove is how much warmer than the room a heated zone is [K].
const heatedAbove = 5

// Reheat sets every heated zone of the path, one that is more than five kelvins above the room [K], to the
// usual highest drying temperature of the material, or to what the strand bears where that is less. Its air is that which
// [diffusion.Air.At] gives.
func Reheat(m *diffusion.Model, room float64) {
	for i := range m.Path {
		if air := &m.Path[i].Air; air.Temperature > room+heatedAbove {
			*air = air.At(m.Material.HottestDrying())
		}
	}
}
