package materials

// GasConstant is the molar gas constant [J/(mol K)] (CODATA 2018).
const GasConstant = 8.314462618

// Kind tells what sort of knowledge a number is.
type Kind int

// The kinds: what is known of a polymer from others, from the best to the least, then what its user says. Given is whatever a user's file states
// without a kind; what was fitted tells more of its strand than anything published of others does, and rests on one scale.
const (
	Published         Kind = iota // the figure itself was read in a reviewed text
	PublishedAbstract             // read in its abstract, the text itself not
	PublishedWeak                 // read, but in a text without review
	Memory                        // remembered from handbooks and papers, not checked
	Practice                      // common practice, without a scientific source
	Given                         // stated by the user
	Fitted                        // to weighings of the strand itself, by its user
)

func kinds() []string {
	return []string{"published", "published-abstract", "published-weak", "memory", "practice", "given", "fitted"}
}

// String returns the word used in material files, such as "published-weak".
func (k Kind) String() string { return word(kinds(), int(k)) }

// word is the i-th of some words.
func word(all []string, i int) string {
	if i < 0 || i >= len(all) {
		return "unknown"
	}
	return all[i]
}

// Value is a number in SI with its doubt and origin; Low <= Value <= High. What the three mean stands in the package
// comment; equal, they leave no doubt.
type Value struct {
	Value, Low, High float64
	Kind             Kind
	Source           string
}

// Range is a closed interval in SI.
type Range struct{ Min, Max float64 }

// Holds tells whether x lies in the range, ends included; never for NaN.
func (r Range) Holds(x float64) bool { return x >= r.Min && x <= r.Max }

// Note is a remark on a polymer with its origin.
type Note struct {
	Text, Source string
	Kind         Kind
	About        Subject // what it doubts
}

// Subject is a group of properties that a note is about.
type Subject int

// The subjects. A note about one of the last three goes where a user states the property himself.
const (
	Anything Subject = iota
	AboutDiffusivity
	AboutSorption
	AboutLimit
)

func subjects() []string { return []string{"anything", "diffusivity", "sorption", "limit"} }
