package page

import (
	"fmt"
	"slices"

	"strandry/diffusion/machine"
	"strandry/plots/figure"
	"strandry/plots/table"
)

// machine is the section of what the dryer takes.
func (l *Log) machine() []block {
	m := l.Answer.Machine
	blocks := []block{text("What the dryer takes, as far as it is stated in the scenario, computed for the steady state at the medians. Every number is an estimate: measure yours before you rely on it.")}
	for _, part := range m.Parts() {
		if len(part.Rows) > 0 {
			blocks = append(blocks, head(part.Head), block{Facts: part.Rows})
		}
	}
	if bought := m.Bought(); len(bought) > 0 {
		g := &grid{Heads: table.BoughtHeads(), Words: true}
		for _, cells := range bought {
			g.add(cells...)
		}
		blocks = append(blocks, head("Parts"), text("The prices are those of the scenario; none is known here."), block{Grid: g})
	}
	return slices.Concat(blocks, listed("What to look at", m.Alerts()),
		listed("What can hurt", append(m.Cautions(), "Heat, mains, fumes and what turns: see Safety, all of which holds here.")), listed("Not given of the machine and assumed", m.Assumed))
}

// undesigned is what is still to be worked out before anything is built.
func (l *Log) undesigned() []string {
	heater, led := "the heater: its power, its sensor and controller, and a thermal cut-out that needs no software",
		"how the strand is led: drum or rollers, least bending radius, tension, friction, and what drives it at the pace of the feed"
	if m := l.Answer.Machine; m != nil {
		if slices.ContainsFunc(m.Chambers, func(h machine.Housed) bool { return h.Walled }) {
			heater = "the heater: its place, its sensor and controller, and a thermal cut-out that needs no software"
		}
		if slices.ContainsFunc(m.Chambers, func(h machine.Housed) bool { return h.Led }) {
			led = "how the strand is threaded, and what drives it at the pace of the feed"
		}
	}
	return []string{
		heater,
		"wiring, fuses, earthing and the enclosure",
		led,
		"the supply of the air: how it is dried, moved, filtered and measured, and how the housing is sealed and insulated",
		"what happens at the start, in a pause and when the power fails: a strand at rest goes on drying in the heat and rewets in the room",
	}
}

// built are the drawings of the machine; undrawn tells of those that there cannot be, and why.
func (l *Log) built(frame figure.Frame) (all []drawing, undrawn []string, err error) {
	const scaled, filling = "The machine to scale", "How the desiccant fills"
	m := l.Answer.Machine
	if m == nil {
		return nil, []string{scaled + ": " + figure.NoShape}, nil
	}
	f, some, err := figure.MachineOf(l.Scenario, m.Answer, frame)
	switch {
	case err != nil:
		return nil, nil, fmt.Errorf("figure %s: %w", drawingName, err)
	case some:
		all = append(all, drawing{drawingName, scaled, "A drawing to scale of each chamber from the side and from the end, with its sizes, the strand, and where air and strand go in and out.",
			plain(f.Headline()) + ". Nothing is drawn that is not in the scenario or follows from it: where the heater sits, doors, bearings and fixings are yours to place.", f})
	default:
		undrawn = append(undrawn, scaled+": "+figure.NoShape)
	}
	if !m.Bed.Used {
		return all, undrawn, nil
	}
	bed, why := figure.FillingOf(&m.Bed, frame)
	if why != "" {
		return all, append(undrawn, filling+": "+why), nil
	}
	return append(all, drawing{fillingName, filling, "A line chart of the dew point that the bed holds over the time since it was fresh, with the one that is wanted and a band of doubt.",
		plain(bed.Headline()) + ". The band is the doubt of the isotherm alone; a bed that the air does not reach evenly lasts less.", bed}), undrawn, nil
}
