package materials

// Polymer is one material. All values are in SI.
type Polymer struct {
	ID      string // name in the library or of the user's file, such as "pa6"
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

	MoistureLimit Value  // [kg/kg dry], the wettest strand that prints well
	YoungsModulus *Value // [Pa], cold and dry; nil when nothing is known

	Diffusivity Diffusivity
	Sorption    Sorption

	Doubts, Cautions []Note
}
