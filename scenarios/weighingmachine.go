package scenarios

import (
	"errors"
	"slices"

	"strandry/materials/text/strict"
)

// machine reads the scenario whose checks count too: of the same material, and with checks of what left the machine.
func (r *reading) machine(root section, w *Weighings) {
	name, ok := root.text("machine")
	if !ok {
		return
	}
	if r.document.open == nil {
		root.fault("machine", "a text without a folder cannot name files", "")
		return
	}
	path := beside(r.document.path, name)
	text, err := r.document.open(name)
	if err != nil {
		root.report("machine", strict.Fault{Problem: err.Error(), Nearest: neighbour(path, err)})
		return
	}
	d, err := Parse(path, text)
	var s *Scenario
	if err == nil {
		d.open = func(file string) ([]byte, error) { return r.document.open(beside(name, file)) }
		s, err = d.Scenario()
	}
	var inside strict.Faults
	if errors.As(err, &inside) {
		root.fault("machine", "the scenario has faults", "")
		r.faults = append(r.faults, inside...)
		return
	}
	own := w.Model.Material.ID
	switch {
	case !slices.ContainsFunc(s.Checks, func(c Check) bool { return c.After > 0 }):
		root.fault("machine", "no strand was weighed at this machine", "a scenario with a [[check]] that has after")
	case own != "" && s.Model.Material.ID != own:
		root.fault("machine", "its strand is "+s.Model.Material.ID+", not "+own, "a scenario with the material that is weighed")
	default:
		w.Machine = s
	}
}
