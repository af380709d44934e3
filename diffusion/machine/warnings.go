package machine

import (
	"math"
	"slices"

	"strandry/diffusion/machine/desiccant"
	"strandry/diffusion/machine/heat"
	"strandry/diffusion/machine/pull"
)

// Concern is what a warning is about.
type Concern int

// The concerns. Value and Limit of a [Warning] are told with each.
const (
	DoesNotFit      Concern = iota // size of the housing that is farthest beyond the box, and that of the box [m]
	BendsTooTight                  // least radius, and the one that is allowed [m]
	HeaterTooWeak                  // stated power, and the steady one [W]
	HeaterIsSmall                  // stated power, and the one with the margin [W]
	NeverWarm                      // temperature that is reached in the end, and the one that is set [K]
	BurnsHands                     // highest surface temperature, and the limit of touch that it passes [K]
	SlowToWarm                     // time to warm up, and an hour [s]
	Uneven                         // difference of the air along the path if it is warmed before it enters, and 10 K [K]
	NoHousing                      // a heated chamber without a shape: its wall is not told
	NoFlow                         // a heated chamber in air without limit: what warms it is not told
	AirTooLittle                   // stated flow, and the one below which the air is the limit [m³/s]
	AirIdle                        // stated flow, and the one beyond which more gains little [m³/s]
	AirBringsWater                 // water that the air brings, and what the strands give [kg/s]
	LeakBringsWater                // water that leaks in, and what the strands give [kg/s]
	NoDesiccant                    // air goes over a desiccant of which nothing is stated
	BedHoldsLess                   // vapour pressure that a fresh bed holds, and the target [Pa]
	BedIsShort                     // its life, and eight hours [s]
	BedTurnsLiquid                 // vapour pressure of the wettest air that it meets, and the target [Pa]
	BedIsHot                       // temperature of the bed, and of the room [K]
	PullBeyond                     // the pull grows beyond what can be computed
	PullsTooHard                   // pull at the feeder, and what it gives [N]
	StretchesHot                   // strain where it is largest, and a hundredth [-]
	StretchUnknown                 // the stress where the strand is hottest [Pa]; its modulus there is not known
	SoftensAtRest                  // hottest air, and what the strand bears [K]
)

// Warning is a thing to look at, with what it is about.
type Warning struct {
	Concern      Concern
	Chamber      string // "" for the whole machine
	Value, Limit float64
}

// What is worth a warning (common practice, no source).
const (
	slowWarm  = 3600.0
	shortBed  = 8 * 3600.0
	unevenBy  = 10.0
	idleBy    = 3.0  // more air than is of use
	carries   = 10.0 // times the water of the strand
	stretches = 0.01
)

// warn gathers what is to be looked at.
func (m *Machine) warn(a *Answer) {
	add := func(c Concern, chamber string, value, limit float64) {
		a.Warnings = append(a.Warnings, Warning{c, chamber, value, limit})
	}
	for i := range a.Chambers {
		h := &a.Chambers[i]
		m.warnOfSize(h, add)
		warnOfHeat(h, m.Chambers[i].Wall.Surface, add)
		warnOfAir(h, add)
	}
	m.warnOfBed(a, add)
	warnOfPull(&a.Pull, add)
	if a.Pause.Softens() {
		add(SoftensAtRest, a.Pause.Zone, a.Pause.Air, a.Pause.Bears)
	}
}

type adding func(c Concern, chamber string, value, limit float64)

func (m *Machine) warnOfSize(h *Housed, add adding) {
	if h.Boxed && !h.Fits {
		size, room := farthest(h.Outer, m.Box)
		add(DoesNotFit, h.Name, size, room)
	}
	if least := m.LeastBend; h.Led && h.Lead.BendRadius > 0 && h.Lead.BendRadius < least*(1-1e-9) {
		add(BendsTooTight, h.Name, h.Lead.BendRadius, least)
	}
}

// farthest are the size of a housing that is farthest beyond that of a box, the largest beside the largest, and that one [m].
func farthest(housing [3]float64, b Box) (size, room float64) {
	inner := [...]float64{b.Length, b.Width, b.Height}
	slices.Sort(housing[:])
	slices.Sort(inner[:])
	for i, s := range housing {
		if s*room >= size*inner[i] {
			size, room = s, inner[i]
		}
	}
	return size, room
}

func warnOfHeat(h *Housed, s Surface, add adding) {
	if !h.Heated {
		return
	}
	switch {
	case h.Heater > 0 && h.Heater < h.Steady.Heater:
		add(HeaterTooWeak, h.Name, h.Heater, h.Steady.Heater)
	case h.Heater > 0 && h.Heater < h.Size*(1-1e-9):
		add(HeaterIsSmall, h.Name, h.Heater, h.Size)
	}
	switch {
	case h.Warms && !h.WarmUp.Reached:
		add(NeverWarm, h.Name, h.WarmUp.Final, h.Steady.Out.Temperature)
	case h.Warms && h.WarmUp.Seconds > slowWarm:
		add(SlowToWarm, h.Name, h.WarmUp.Seconds, slowWarm)
	}
	if h.Walled {
		if limit, err := heat.TouchLimit(s.material(), 1); err == nil && h.Loss.SurfaceHigh >= limit {
			add(BurnsHands, h.Name, h.Loss.SurfaceHigh, limit)
		}
	} else {
		add(NoHousing, h.Name, 0, 0)
	}
	if h.Airless {
		add(NoFlow, h.Name, 0, 0)
	}
	if h.Uneven && h.Along.Range > unevenBy {
		add(Uneven, h.Name, h.Along.Range, unevenBy)
	}
}

func warnOfAir(h *Housed, add adding) {
	w := &h.Water
	if !w.Limited || w.Given <= 0 || !h.Heated {
		return
	}
	switch {
	case w.Least > 0 && w.Flow < w.Least:
		add(AirTooLittle, h.Name, w.Flow, w.Least)
	case w.Enough > 0 && w.Flow > idleBy*w.Enough:
		add(AirIdle, h.Name, w.Flow, w.Enough)
	}
	if w.Leak.Water() > w.Given {
		add(LeakBringsWater, h.Name, w.Leak.Water(), w.Given)
	}
	if w.Supply.Water() > carries*w.Given {
		add(AirBringsWater, h.Name, w.Supply.Water(), w.Given)
	}
}

func (m *Machine) warnOfBed(a *Answer, add adding) {
	b := &a.Bed
	if !b.Used {
		for i, c := range m.Chambers {
			if c.Source.overDesiccant() && a.Chambers[i].Water.Limited {
				add(NoDesiccant, c.Name, 0, 0)
				return
			}
		}
		return
	}
	const warm = 5 // [K]
	switch {
	case !b.Life.Never && b.Life.Seconds == 0:
		add(BedHoldsLess, "", b.Fresh, b.Target)
	case !b.Life.Never && b.Life.Seconds < shortBed:
		add(BedIsShort, "", b.Life.Seconds, shortBed)
	}
	if b.Bed.Isotherm.Kind == desiccant.CalciumChloride && b.Bed.Isotherm.TurnsLiquid(math.Max(b.Target, m.Room.VapourPressure), b.Bed.Temperature) {
		add(BedTurnsLiquid, "", math.Max(b.Target, m.Room.VapourPressure), b.Target)
	}
	if m.Bed.Temperature > m.Room.Temperature+warm {
		add(BedIsHot, "", m.Bed.Temperature, m.Room.Temperature)
	}
}

func warnOfPull(p *Drawn, add adding) {
	if p.Beyond {
		add(PullBeyond, "", 0, 0)
	}
	if !p.Told {
		return
	}
	if p.Holds == pull.Fails || p.Holds == pull.Doubtful {
		add(PullsTooHard, "", p.Result.Pull.High, p.Given)
	}
	if i := p.Result.Longest; i >= 0 && p.Result.Points[i].Stretch.Strain.High > stretches {
		add(StretchesHot, p.Result.Points[i].Name, p.Result.Points[i].Stretch.Strain.High, stretches)
	}
	if i := p.Result.Hottest; i >= 0 && !p.Result.Points[i].Stretch.Known {
		add(StretchUnknown, p.Result.Points[i].Name, p.Result.Points[i].Stress.High, 0)
	}
}
