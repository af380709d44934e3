package advice

import (
	"cmp"
	"math"
	"slices"

	"strandry/diffusion"
)

// Draft is a design as its owner has written it down.
type Draft interface {
	// Written is a change as it would be written down: each number rounded from what is drawn towards its bound, no further, to one that can be built,
	// with its key and its words. It is false where it cannot be written, or would change nothing.
	Written(c Change) (Change, bool)
	// Changed is the model of the design with changes as they are written.
	Changed(all []Change) (*diffusion.Design, error)
}

// Set is some changes made together, and what comes of them.
type Set struct {
	Changes     []Change
	Probability float64 // of meeting the limit
	Mean        float64 // content at the nozzle at the medians [kg/kg dry]
	Verdict     diffusion.Verdict
	Endurance   diffusion.Endurance
}

// Advice is what would do.
type Advice struct {
	Sets []Set // of the smallest size of which one is dry; the best first, three at most
	// Nearest is the likeliest set where none is dry; nil where there is nothing to be changed, or the strand softens whatever is.
	Nearest *Set
	// Floor is what the driest air of the nearest set allows, where that is above the limit [kg/kg dry], in zone FloorZone; else zero.
	Floor     float64
	FloorZone string
	// Length is about how long the drying zone would have to be, with the other changes of the nearest set, to be dry nine times in ten [m], whatever can be built; zero
	// where no length up to a kilometre was found that would do. LengthZone is its name.
	Length     float64
	LengthZone string
}

// Find seeks advice for a design from its model, the settings of its runs, its assessment and diagnosis. What is dry needs none.
func Find(w *diffusion.March, draft Draft, m *diffusion.Design, s diffusion.Settings, a *diffusion.Assessment, d *Diagnosis, b Bounds) Advice {
	if a.Verdict == diffusion.Dry {
		return Advice{}
	}
	b.Hottest = min(b.Hottest, m.Material.GivesWay().Min)
	f := &finder{march: w, beside: diffusion.NewMarch(), draft: draft, design: m, settings: s, room: b.Room, dryer: d.Dryer, designPoint: a.DesignPoint}
	base := m
	if a.Endurance.Survival == diffusion.Softens {
		cooler, ok := draft.Written(b.cool(m))
		if !ok {
			return Advice{}
		}
		f.forced = []Change{cooler}
		base = changed(m, f.forced, b.Room)
	}
	f.possible = f.taken(b.possible(base, &a.Result, d.Dryer))
	return f.find()
}

// taken are the changes that the design takes as far as they go: more air, say, may not fit through a bore.
func (f *finder) taken(all []Change) []Change {
	if _, err := f.draft.Changed(f.forced); err != nil {
		return all // less heat alone may need drier air
	}
	return slices.DeleteFunc(all, func(c Change) bool {
		written, ok := f.draft.Written(c)
		if ok {
			_, err := f.draft.Changed(append(slices.Clone(f.forced), written))
			ok = err == nil
		}
		return !ok
	})
}

// most is of how many changes a set is at most.
const most = 3

type finder struct {
	march       *diffusion.March
	beside      *diffusion.March // marches while the other finds odds
	draft       Draft
	design      *diffusion.Design
	settings    diffusion.Settings
	room        float64
	dryer       int
	designPoint diffusion.DesignPoint // of the design as drawn

	forced   []Change // what each set holds: less heat, where the strand softens
	possible []Change // the others, each at its bound
	nearest  option   // the driest that was looked at
}

// option is a set of changes by their indices, without the forced ones, and the logarithm of content over limit at the design point.
type option struct {
	of    []int
	ratio float64
}

func (f *finder) find() Advice {
	f.nearest.ratio = math.Inf(1)
	var out Advice
	f.options(func(same []option) bool {
		out.Sets = f.confirmed(same)
		return len(out.Sets) > 0
	})
	if len(out.Sets) == 0 {
		f.short(&out)
	}
	return out
}

// confirmed are the sets of some options that are dry as they are written: three at most, and one where the marches are long.
func (f *finder) confirmed(options []option) []Set {
	wanted := 3
	if f.covered() {
		wanted = 1
	}
	const tried = 12
	var sets []Set
	for _, o := range options[:min(tried, len(options))] {
		if len(sets) == wanted {
			break
		}
		if one, ok := f.sufficient(o); ok {
			sets = append(sets, one)
		}
	}
	return sets
}

// covered tells that a cover keeps its place, which makes marches long.
func (f *finder) covered() bool {
	return slices.ContainsFunc(f.design.Path, func(z diffusion.Zone) bool { return z.Contact.Fixed() })
}

// short fills in how near it comes, and what would have to give.
func (f *finder) short(out *Advice) {
	if math.IsInf(f.nearest.ratio, 1) || len(f.forced)+len(f.nearest.of) == 0 {
		return
	}
	changes, ok := f.written(f.changes(f.nearest.of))
	if !ok {
		return
	}
	m, err := f.draft.Changed(changes)
	if err != nil {
		return
	}
	if _, err = f.march.DesignPoint(m, f.settings); err != nil {
		return // its odds would take long
	}
	t, ok := f.tried(changes)
	if !ok || t.Endurance.Survival == diffusion.Softens {
		return
	}
	if t.Verdict == diffusion.Dry {
		out.Sets = []Set{t.Set}
		return
	}
	out.Nearest = &t.Set
	floor := slices.MinFunc(t.result.Zones, func(x, y diffusion.ZoneResult) int { return cmp.Compare(x.Supplied, y.Supplied) })
	if floor.Supplied > t.design.Limit {
		out.Floor, out.FloorZone = floor.Supplied, floor.Name
		return
	}
	if out.Length = f.length(&t); out.Length > 0 {
		out.LengthZone = t.design.Path[f.dryer].Name
	}
}

// farthest is the longest zone of which anything is told [m].
const farthest = 1e3

// length is how long the dryer would have to be about [m]; zero where no length does. What the design point gives is set right by the odds there, along
// a power of the length.
func (f *finder) length(t *trial) float64 {
	drawn := t.design.Path[f.dryer].Length
	if drawn >= farthest || drawn == 0 { // or it has a duration
		return 0
	}
	ever := Change{Kind: Longer, Parts: []Part{{Zone: f.dryer, From: drawn, Bound: farthest}}}
	on := finder{march: f.march, design: t.design, settings: f.settings, room: f.room}
	share, ok := on.needed([]Change{ever}, 0, &t.odds.DesignPoint, 0)
	if !ok {
		return 0
	}
	longer := ever.share(share)
	to := longer.Parts[0].To
	odds, err := f.march.OddsLike(&t.odds, changed(t.design, []Change{longer}, f.room), f.settings)
	if err != nil {
		return 0
	}
	const flat, most = 0.15, 2
	steep := f.march.AtDesignPoint([]*diffusion.Design{t.design}, &t.odds.DesignPoint, f.settings)[0] / math.Log(to/drawn)
	lacks := (diffusion.NineInTen - odds.Probability) / max(odds.Density, flat)
	if change := math.Exp(lacks / steep); change > 0 {
		to *= min(max(change, 1./most), most)
	}
	return min(to, farthest)
}
