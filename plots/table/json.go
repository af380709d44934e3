package table

import (
	"io"

	"strandry/diffusion"
)

// document is the answer as JSON, in SI units.
type document struct {
	Version  string    `json:"version"`
	Title    string    `json:"title"`
	File     string    `json:"file"`
	Material string    `json:"material"`
	Origin   string    `json:"origin"` // of the material: library, or the file that its values come from
	Verdict  string    `json:"verdict"`
	Survives string    `json:"survives"` // holds, doubtful, softens
	Heat     endurance `json:"heat"`
	Moisture moisture  `json:"moisture"`
	limitWords
	Steam       float64    `json:"steam_per_melt_volume"`
	Zones       []zone     `json:"zones"`
	Profile     profile    `json:"profile"`
	Conclusion  string     `json:"conclusion"`
	Cause       string     `json:"cause"`
	Advice      []set      `json:"advice"`  // the smallest sets of changes with which it would be dry; empty where it is, or none was found
	Nearest     []nearest  `json:"nearest"` // the likeliest set where none would do; one at most
	Warnings    []string   `json:"warnings"`
	Unknowns    []string   `json:"unknowns"` // that the odds are drawn from, besides the limit
	Assumptions []string   `json:"assumptions"`
	Unused      []string   `json:"unused_keys"`
	Sources     []string   `json:"sources"`
	Cautions    []string   `json:"cautions"`
	Settings    settings   `json:"settings"`
	Strand      strandData `json:"strand"`
}

type moisture struct {
	Start         float64 `json:"start"`
	Mean          float64 `json:"mean"`
	Low           float64 `json:"low"`  // 10 % point of the mean
	High          float64 `json:"high"` // 90 % point
	ByDiffusivity between `json:"by_diffusivity"`
	Probability   float64 `json:"probability"` // of a mean within the limit
	Centre        float64 `json:"centre"`
	Skin          float64 `json:"skin"`
	limits
	Removed        float64 `json:"removed"`
	NumericalError float64 `json:"numerical_error"` // of the mean
	CentreError    float64 `json:"centre_error"`
	SkinError      float64 `json:"skin_error"`
	ProfileError   float64 `json:"profile_error"`   // the largest along the radius
	SurrogateError float64 `json:"surrogate_error"` // of what the odds rest on, relative to the content
}

// between are the 10 and 90 % points of the mean if the diffusivity alone were in doubt.
type between struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

type zone struct {
	Name              string  `json:"name"`
	Length            float64 `json:"length"`
	Residence         float64 `json:"residence"`
	Mean              float64 `json:"mean"`
	Centre            float64 `json:"centre"`
	Skin              float64 `json:"skin"`         // in the mean round
	BehindCover       float64 `json:"behind_cover"` // at the surface behind a cover that keeps its place; the skin where none does
	StrandTemperature float64 `json:"strand_temperature"`
	AirTemperature    float64 `json:"air_temperature"`
	AirActivity       float64 `json:"air_activity"`
	VapourPressure    float64 `json:"vapour_pressure"`
	HeldHumidity      float64 `json:"held_humidity,omitempty"` // relative, at any temperature of the zone
	Equilibrium       float64 `json:"equilibrium"`
	Fourier           float64 `json:"fourier"`
	Biot              float64 `json:"biot"`
	Resolved          bool    `json:"temperature_resolved"`
	H                 float64 `json:"h"`
	KM                float64 `json:"k_m"`
	Correlation       string  `json:"correlation"`
	Contact           contact `json:"contact"`
	MeanError         float64 `json:"mean_error"` // numerical, as those below
	CentreError       float64 `json:"centre_error"`
	SkinError         float64 `json:"skin_error"`
}

type profile struct {
	Radius   []float64 `json:"radius"`
	Moisture []float64 `json:"moisture"`
}

type settings struct {
	Resolution float64 `json:"resolution"`
	Tolerance  float64 `json:"tolerance"`
	Heat       string  `json:"heat"`
	Nodes      int     `json:"nodes"`
	Steps      int     `json:"steps"`
	Balance    float64 `json:"balance"`
}

type strandData struct {
	Diameter float64 `json:"diameter"`
	Speed    float64 `json:"speed"`
}

// WriteJSON writes the answer as indented JSON in SI units. It writes nothing and
// returns an error if any figure is not finite.
func (a *Answer) WriteJSON(out io.Writer) error {
	if err := a.check(); err != nil {
		return err
	}
	return encode(out, a.document())
}

func (a *Answer) document() document {
	m, r := a.Model, a.Assessment
	d := document{
		Version: a.Version, Title: a.Title, File: a.File, Material: m.Material.ID, Origin: m.Material.Origin, Verdict: r.Verdict.String(),
		Survives: r.Endurance.Survival.String(), Heat: enduranceOf(r.Endurance),
		Moisture:   moistureOf(m, r),
		limitWords: limitWordsOf(m, &r.Odds), Steam: r.Steam, Profile: profile{r.Radius, r.Profile}, Conclusion: a.Conclusion(), Cause: a.Diagnosis.Cause.String(),
		Unknowns: notNil(r.Unknowns), Assumptions: notNil(a.Assumed), Unused: notNil(a.Unused), Sources: Sources(&m.Material), Cautions: Cautions(m),
		Settings: settings{
			r.Settings.Resolution, r.Settings.Tolerance, r.Settings.Heat.String(), r.Nodes, r.Steps, r.Balance,
		},
		Strand: strandData{2 * m.Radius, m.Speed}, Warnings: []string{},
	}
	for i, z := range r.Zones {
		one, off := zoneOf(z), r.ZoneErrors[i]
		one.MeanError, one.CentreError, one.SkinError = off.Mean, off.Centre, off.Skin
		one.HeldHumidity = m.Path[i].Air.Held
		d.Zones = append(d.Zones, one)
	}
	d.Warnings = append(d.Warnings, a.Warnings()...)
	d.Advice, d.Nearest = setsOf(m, a.Advice.Sets), nearestOf(m, &a.Advice)
	return d
}

func moistureOf(m *diffusion.Design, r *diffusion.Assessment) moisture {
	return moisture{
		Start: r.Start.Mean, Mean: r.Nozzle.Mean, Low: r.Low, High: r.High, Centre: r.Nozzle.Centre,
		Skin: r.Nozzle.Skin, limits: limitsOf(m), Removed: r.Removed, NumericalError: r.NumericalError,
		CentreError: r.Errors.Centre, SkinError: r.Errors.Skin, ProfileError: r.Errors.Profile,
		Probability: r.Probability, ByDiffusivity: between{r.ByDiffusivity.Low, r.ByDiffusivity.High},
		SurrogateError: r.Fit,
	}
}

func zoneOf(z diffusion.ZoneResult) zone {
	return zone{
		Name: z.Name, Length: z.Length, Residence: z.Residence, Mean: z.Exit.Mean, Centre: z.Exit.Centre, Skin: z.Exit.Skin,
		StrandTemperature: z.Exit.Temperature, AirTemperature: z.AirTemperature, AirActivity: z.AirActivity,
		VapourPressure: z.VapourPressure, Equilibrium: z.Equilibrium, Fourier: z.Fourier, Biot: z.Biot, Resolved: z.Resolved,
		H: z.Film.Heat, KM: z.Film.Mass, Correlation: z.Film.Correlation,
		BehindCover: z.Behind, Contact: contactOf(z.Contact),
	}
}

func notNil(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}
