package materials

import (
	"path/filepath"
	"reflect"
	"slices"
)

// Polymer is one material. All values are in SI. What it is, is its content and where that came from, see
// [Polymer.Same]; names may be those of others.
type Polymer struct {
	ID      string // name in the library or of the user's file, such as "pa6"
	Origin  string // [FromLibrary], or the file that it, or some of its values, were read from, as it was named
	Name    string // as people write it, such as "PA6"
	Family  string // what it is, such as "polyamide 6, unfilled"
	Summary string // one sentence

	Structure Structure

	Density      Value // [kg/m3], 100 to 5000
	HeatCapacity Value // [J/(kg K)], 100 to 10000
	Conductivity Value // [W/(m K)], 0.01 to 10

	GlassTransition   Value  // [K]
	Melting           *Value // [K], of the crystals; never nil for a semicrystalline polymer
	Softening         Value  // [K], where a pulled strand stretches or sticks: Low it holds, High it gives way (5 and 95 % points), Value the median
	DryingTemperature Value  // [K], usual highest air temperature for a wound spool
	NozzleTemperature Value  // [K]

	PrintingLimit Value // [kg/kg dry], the wettest strand whose printed part shows no bubbles, strings or rough skin
	MouldingLimit Value // [kg/kg dry], the wettest that moulders melt, so that the chain is not cut or no streaks show
	Hydrolyses    bool  // in the melt water cuts the chain

	Moduli []ModulusAt // of elasticity, by ascending temperature, dry; none when nothing is known

	Diffusivity Diffusivity
	Sorption    Sorption

	Doubts, Cautions []Note
}

// FromLibrary is the origin of what the library holds.
const FromLibrary = "library"

// Same tells whether two are one: alike in every value, source and note, and of one origin.
func (p *Polymer) Same(q *Polymer) bool { return reflect.DeepEqual(p, q) }

// Label is the name by which a polymer is told apart: its ID, with its origin where that is the name of another one in the
// library.
func (p *Polymer) Label() string {
	if p.foreign() {
		return p.ID + " (" + p.Origin + ")"
	}
	return p.ID
}

// Title is the same with the name as people write it, and no more than the end of the origin.
func (p *Polymer) Title() string {
	if !p.foreign() {
		return p.Name
	}
	const most = 24
	end := []rune(filepath.Base(p.Origin))
	if len(end) > most {
		end = append([]rune("…"), end[len(end)-most+1:]...)
	}
	return p.Name + " (" + string(end) + ")"
}

// foreign tells that the library has another polymer of this ID.
func (p *Polymer) foreign() bool {
	return p.Origin != FromLibrary && p.Origin != "" && slices.Contains(Names(), p.ID)
}
