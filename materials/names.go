package materials

import (
	"fmt"
	"slices"
	"strings"
)

// Understood returns the name in the library of a material as people write it. Case, hyphens, spaces, points and
// solidi do not count, and the full name of a polymer is as good as its letters ("PETG", "PA 6.6", "Nylon 12"). A word
// for a family is taken for the commonest of it, and taken says so; else taken is "". The name of a file, which ends in ".toml", is
// returned as it is. The error is an [*UnknownError]: no such polymer, or a word that several answer to.
func Understood(given string) (name, taken string, err error) {
	if strings.HasSuffix(given, ".toml") {
		return given, "", nil
	}
	names := Names()
	if slices.Contains(names, given) {
		return given, "", nil
	}
	word := letters(given)
	for _, name := range names {
		if word == letters(name) {
			return name, "", nil
		}
	}
	if name = fullName(word); name != "" {
		return name, "", nil
	}
	family := familyOf(word)
	switch {
	case family.commonest == "":
		return "", "", unknown(given, family.candidates)
	case len(family.candidates) == 0:
		return family.commonest, fmt.Sprintf("%q taken as %s", given, family.commonest), nil
	}
	return family.commonest, fmt.Sprintf("%q taken as %s; others: %s", given, family.commonest, strings.Join(family.candidates, ", ")), nil
}

// letters is a name without what people write or leave out at will.
func letters(name string) string {
	return strings.NewReplacer("-", "", "_", "", " ", "", "/", "", ".", "", ",", "", "(", "", ")", "").Replace(strings.ToLower(name))
}

// fullName is the polymer of the library that a full name, or another abbreviation, can mean alone; "" where there is none.
func fullName(word string) string {
	switch word {
	case "nylon6", "polyamide6":
		return "pa6"
	case "nylon66", "polyamide66":
		return "pa66"
	case "nylon666", "polyamide666":
		return "pa6-66"
	case "nylon12", "polyamide12":
		return "pa12"
	case "polycarbonate":
		return "pc"
	case "polylactide", "polylacticacid":
		return "pla"
	case "polypropylene":
		return "pp"
	case "acetal", "polyoxymethylene":
		return "pom"
	case "polyetheretherketone":
		return "peek"
	case "polyetherimide":
		return "pei"
	case "polyphenylenesulfide", "polyphenylenesulphide":
		return "pps"
	case "polycaprolactone":
		return "pcl"
	case "pvoh", "pval", "polyvinylalcohol":
		return "pva"
	case "polymethylmethacrylate":
		return "pmma"
	case "highimpactpolystyrene":
		return "hips"
	case "estertpu", "polyestertpu":
		return "tpu-ester"
	case "ethertpu", "polyethertpu":
		return "tpu-ether"
	}
	return ""
}

// family is what a word may mean: the commonest, where one stands for it, and others.
type family struct {
	commonest  string
	candidates []string
}

func familyOf(word string) family {
	switch word {
	case "nylon", "polyamide", "pa":
		return family{"pa6", []string{"pa66", "pa6-66", "pa12", "pa6-cf20"}}
	case "acrylic", "acrylicglass":
		return family{commonest: "pmma"}
	case "annealedpla", "crystallisedpla", "crystallizedpla", "htpla":
		return family{commonest: "pla-cryst"}
	case "nyloncf", "polyamidecf", "pacf", "pa6cf":
		return family{commonest: "pa6-cf20"}
	case "tpu", "polyurethane":
		return family{candidates: []string{"tpu-ester", "tpu-ether"}}
	case "polyester", "copolyester":
		return family{candidates: []string{"petg", "pet"}}
	case "polystyrene", "ps":
		return family{candidates: []string{"hips"}}
	}
	return filled(word)
}

// filled is the family of a grade that is filled or modified, as in "PA12-CF" or "PLA+": the plain polymer comes nearest.
func filled(word string) family {
	stem := strings.TrimRight(word, "0123456789")
	for _, ending := range [...]string{"cf", "gf", "+"} {
		plain, ends := strings.CutSuffix(stem, ending)
		if !ends || plain == "" {
			continue
		}
		name, _, err := Understood(plain)
		if err != nil {
			continue
		}
		near := []string{name}
		if ending == "cf" && strings.HasPrefix(name, "pa") {
			near = append(near, "pa6-cf20")
		}
		return family{candidates: near}
	}
	return family{}
}
