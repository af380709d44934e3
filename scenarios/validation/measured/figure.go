package measured

import "strandry/materials"

// Quantity is what was measured.
type Quantity int

// The quantities.
const (
	Equilibrium      Quantity = iota // content [kg/kg dry]
	Uptake                           // content of a dry plate after a time [kg/kg dry]
	Diffusivity                      // [m2/s]
	ActivationEnergy                 // of the diffusivity [J/mol]
	DiffusivityRatio                 // at the second temperature over that at the first [-]
	EquilibriumRatio                 // the same of contents [-]
)

func quantities() []string {
	return []string{"equilibrium", "uptake", "diffusivity", "activation energy", "diffusivity ratio", "equilibrium ratio"}
}

// String returns the word used in the data.
func (q Quantity) String() string {
	if all := quantities(); q >= 0 && int(q) < len(all) {
		return all[q]
	}
	return "unknown"
}

// Unit is the SI unit of the quantity, "-" for a ratio.
func (q Quantity) Unit() string {
	switch q {
	case Equilibrium, Uptake:
		return "kg/kg"
	case Diffusivity:
		return "m2/s"
	case ActivationEnergy:
		return "J/mol"
	}
	return "-"
}

// Conditions are those of a measurement; what its quantity does not need is zero.
type Conditions struct {
	Temperature float64 // [K]
	To          float64 // second temperature [K]
	Humidity    float64 // relative [-]; 1 for immersion
	Thickness   float64 // of the plate, both faces exposed [m]
	Time        float64 // [s]
}

// Figure is one measured value.
type Figure struct {
	Material  string // its name in the library
	Quantity  Quantity
	At        Conditions
	Low, High float64        // as stated; equal for a single value [Quantity.Unit]
	Rounded   bool           // Low and High are how far a value of one printed digit, midway, may have been rounded
	Kind      materials.Kind // Published or PublishedWeak
	Read      string         // where in the source: abstract or text
	Source    string
	Reckoned  string // the arithmetic from what is printed to the value, or ""
	Anchor    string // what in the library was made from it, or "" when nothing was
	Remark    string // what is assumed, and how the specimen differs, or ""
}

// Independent tells that nothing in the library was made from the figure.
func (f *Figure) Independent() bool { return f.Anchor == "" }

// Middle is the value, or the middle of the range, [Quantity.Unit].
func (f *Figure) Middle() float64 { return (f.Low + f.High) / 2 }

// Unusable is a measurement that cannot be set against a prediction.
type Unusable struct {
	Materials []string // names in the library; none where the source names none
	What      string
	Why       string // it cannot be used
	Source    string
}
