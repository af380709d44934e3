package advice

import (
	"math"

	"strandry/diffusion"
)

// Design is a design as its owner has written it down.
type Design interface {
	// Written is a change as it would be written down: each number rounded from what is drawn towards its bound, no further, to one that can be built,
	// with its key and its words. It is false where it cannot be written, or would change nothing.
	Written(c Change) (Change, bool)
	// Changed is the model of the design with changes as they are written.
	Changed(all []Change) (*diffusion.Model, error)
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
	// Length is how long the drying zone would have to be in place of the nearest set's for it to be dry nine times in ten [m], beyond what can be built; zero
	// where no length was found that would do. LengthZone is its name.
	Length     float64
	LengthZone string
}

// Find seeks advice for a design from its model, the settings of its runs, its assessment and diagnosis. What is dry needs none.
func Find(w *diffusion.March, design Design, m *diffusion.Model, s diffusion.Settings, a *diffusion.Assessment, d *Diagnosis, b Bounds) Advice {
	if a.Verdict == diffusion.Dry {
		return Advice{}
	}
	b.Hottest = min(b.Hottest, m.Material.GivesWay().Min)
	f := &finder{march: w, design: design, model: m, settings: s, room: b.Room, dryer: d.Dryer, odds: &a.Odds}
	base := m
	if a.Endurance.Survival == diffusion.Softens {
		cooler, ok := design.Written(b.cool(m))
		if !ok {
			return Advice{}
		}
		f.forced = []Change{cooler}
		base = changed(m, f.forced, b.Room)
	}
	f.possible = b.possible(base, &a.Result, d.Dryer)
	return f.find(b)
}

// most is of how many changes a set is at most.
const most = 3

type finder struct {
	march    *diffusion.March
	design   Design
	model    *diffusion.Model
	settings diffusion.Settings
	room     float64
	dryer    int
	odds     *diffusion.Odds // of the design as drawn

	forced   []Change // what each set holds: less heat, where the strand softens
	possible []Change // the others, each at its bound
	nearest  option   // the driest that was looked at
}

// option is a set of changes by their indices, without the forced ones, and the logarithm of content over limit in the cautious case.
type option struct {
	of    []int
	ratio float64
}

func (f *finder) find(b Bounds) Advice {
	f.nearest.ratio = math.Inf(1)
	var out Advice
	f.options(func(same []option) bool {
		out.Sets = f.confirmed(same)
		return len(out.Sets) > 0
	})
	if len(out.Sets) == 0 {
		f.short(&out, b)
	}
	return out
}

// confirmed are the sets of some options that are dry as they are written, three at most.
func (f *finder) confirmed(options []option) []Set {
	const wanted, tried = 3, 5
	var sets []Set
	for i, o := range options {
		if len(sets) == wanted || i == tried {
			break
		}
		if one, ok := f.sufficient(o); ok {
			sets = append(sets, one)
		}
	}
	return sets
}

// short fills in how near it comes, and what would have to give.
func (f *finder) short(out *Advice, b Bounds) {
	if math.IsInf(f.nearest.ratio, 1) || len(f.forced)+len(f.nearest.of) == 0 {
		return
	}
	changes, ok := f.written(f.changes(f.nearest.of))
	if !ok {
		return
	}
	set, a, m := f.assessed(changes)
	if a == nil || set.Endurance.Survival == diffusion.Softens {
		return
	}
	if set.Verdict == diffusion.Dry {
		out.Sets = []Set{set}
		return
	}
	out.Nearest = &set
	floor := &a.Zones[0]
	for i := range a.Zones {
		if a.Zones[i].Supplied < floor.Supplied {
			floor = &a.Zones[i]
		}
	}
	if floor.Supplied > m.Limit {
		out.Floor, out.FloorZone = floor.Supplied, floor.Name
		return
	}
	if out.Length = f.length(m, &a.Odds); out.Length > b.Longest {
		out.LengthZone = m.Path[f.dryer].Name
		return
	}
	out.Length = 0
}

// length is how long the dryer would have to be to be dry nine times in ten [m]; zero where no length does.
func (f *finder) length(m *diffusion.Model, odds *diffusion.Odds) float64 {
	const longest, tries = 1e4, 3 // [m]
	ever := Change{Kind: Longer, Parts: []Part{{Zone: f.dryer, From: m.Path[f.dryer].Length, Bound: longest}}}
	on := finder{march: f.march, model: m, settings: f.settings, room: f.room}
	target := 0.0
	for range tries {
		share, ok := on.needed([]Change{ever}, 0, odds, target, 3)
		if !ok {
			return 0
		}
		longer := ever.share(share)
		long := changed(m, []Change{longer}, f.room)
		found, err := f.march.Odds(long, f.settings)
		if err != nil {
			return 0
		}
		if found.Probability >= diffusion.Likely {
			return longer.Parts[0].To
		}
		odds, target = &found, f.target(long, &found)
	}
	return 0
}
