package buildlog

import (
	"context"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/diffusion/parallel"
	"strandry/materials"
	"strandry/scenarios"
	"strandry/scenarios/studies/keeps"
	"strandry/scenarios/studies/needed"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
	"strandry/scenarios/studies/sweep"
)

// Survey is what the studies have found. Where one could not be made, it is nil and
// its reason says why.
type Survey struct {
	Zone  int // whose length and temperature are varied: that the design dries with
	Trace *diffusion.Trace

	Length, Heat, Feed Sized

	Map          *sweep.Grid // moisture over the zone's length and the feed
	MapReason    string
	Needed       *needed.Table
	NeededReason string
	Suits        *suits.Answer
	SuitsReason  string
	Varied       *sweep.Grid // over what the scenario varies itself; nil without a reason where it varies nothing
	VariedReason string
	Keeps        *keeps.Answer // of a dry strand of the scenario's material, in its room
	KeepsReason  string
	Film         Film
}

// Sized is the search for one number, or the reason for which there is none.
type Sized struct {
	Answer *size.Answer
	Reason string
}

// Least are the least value that meets the limit at the medians, and that which meets it nine times in ten [SI]; zero where they were not found.
func (z Sized) Least() (met, reliable float64) {
	a := z.Answer
	if a == nil || a.Outcome != size.Met || a.Value != a.DryFrom {
		return 0, 0
	}
	if a.Reliable.Outcome == size.Met && a.Reliable.From > a.From {
		reliable = a.Reliable.From
	}
	return a.Value, reliable
}

// Steps is how often Of calls its step.
const Steps = 7

// RoomTime is how long the strand that was dry lies in the room before it is dried again [s].
const RoomTime = 6 * 3600

// Of makes the studies of a scenario whose assessment is given, on all cores. It calls step
// after each, from the caller's goroutine. The error is that of the context, or of a model that
// cannot be marched.
func Of(ctx context.Context, s *scenarios.Scenario, a *diffusion.Assessment, step func()) (*Survey, error) {
	out := &Survey{Zone: advice.Dryer(&s.Design, &a.Result)}
	w := diffusion.NewMarch()
	var err error
	if out.Trace, err = w.Trace(&s.Model, a.Settings); err != nil {
		return nil, err
	}
	if out.Film, err = films(w, s, a); err != nil {
		return nil, err
	}
	step()
	for _, study := range []func(context.Context, *scenarios.Scenario){out.sizes, out.chart, out.lengths, out.materials, out.varied, out.keeps} {
		study(ctx, s)
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		step()
	}
	return out, nil
}

// sizes seeks the length, the temperature and the feed that just meet the limit.
func (v *Survey) sizes(ctx context.Context, s *scenarios.Scenario) {
	keys := [...]string{s.ZoneKey(v.Zone, "length"), s.ZoneKey(v.Zone, "temperature"), s.FeedKey().Name}
	found, err := parallel.Map(ctx, diffusion.Marches(len(keys)), len(keys), func(w *diffusion.March, i int) (Sized, error) {
		answer, err := size.Find(w, s, size.Request{Key: keys[i]})
		if err != nil {
			return Sized{Reason: err.Error()}, nil
		}
		return Sized{Answer: answer}, nil
	})
	if err != nil {
		return // the context ended
	}
	v.Length, v.Heat, v.Feed = found[0], found[1], found[2]
}

func (v *Survey) lengths(ctx context.Context, s *scenarios.Scenario) {
	r := needed.Usual(s, v.Zone)
	var err error
	if v.Needed, err = needed.Find(ctx, s, r); err != nil {
		v.Needed, v.NeededReason = nil, err.Error()
	}
}

func (v *Survey) materials(ctx context.Context, s *scenarios.Scenario) {
	all, err := s.Materials()
	if err == nil {
		v.Suits, err = suits.Find(ctx, s, all, RoomTime)
	}
	if err != nil {
		v.Suits, v.SuitsReason = nil, err.Error()
	}
}

func (v *Survey) varied(ctx context.Context, s *scenarios.Scenario) {
	if len(s.Vary) == 0 {
		return
	}
	var err error
	if v.Varied, err = sweep.ForFigures(ctx, s); err != nil {
		v.Varied, v.VariedReason = nil, err.Error()
	}
}

func (v *Survey) keeps(ctx context.Context, s *scenarios.Scenario) {
	var err error
	room := keeps.Air{Temperature: s.Room.Temperature, VapourPressure: s.Room.VapourPressure}
	if v.Keeps, err = keeps.Find(ctx, s, room, []materials.Polymer{s.Model.Material}); err != nil {
		v.Keeps, v.KeepsReason = nil, err.Error()
	}
}
