package materials

import (
	"embed"
	"errors"
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"strandry/materials/text/nearest"
)

//go:embed library/*.toml
var library embed.FS // read only

// UnknownError is a name that the library does not hold.
type UnknownError struct {
	Given      string
	Nearest    string // closest name, or ""
	Allowed    []string
	Candidates []string // what it may mean, where that is known; then Nearest is ""
}

func unknown(given string, candidates []string) *UnknownError {
	out := &UnknownError{Given: given, Allowed: Names(), Candidates: candidates}
	if len(candidates) == 0 {
		out.Nearest = nearest.Name(given, out.Allowed)
	}
	return out
}

// Choices says what may be written in its place.
func (e *UnknownError) Choices() string {
	if len(e.Candidates) > 0 {
		return fmt.Sprintf("%s, or a material file of your own with base = %q", strings.Join(e.Candidates, ", "), e.Candidates[0])
	}
	return strings.Join(e.Allowed, ", ")
}

// Error gives the name, the names there are, or those that it may mean, and the nearest.
func (e *UnknownError) Error() string {
	out := fmt.Sprintf("unknown material %q; allowed: %s", e.Given, e.Choices())
	if e.Nearest != "" {
		out += fmt.Sprintf("; did you mean %q?", e.Nearest)
	}
	return out
}

// Names returns the names of the library's polymers in alphabetical order.
func Names() []string {
	entries, err := library.ReadDir("library")
	if err != nil {
		return nil
	}
	names := make([]string, len(entries))
	for i, entry := range entries {
		names[i] = strings.TrimSuffix(entry.Name(), ".toml")
	}
	slices.Sort(names)
	return names
}

// Library returns all polymers in the order of [Names].
func Library() ([]Polymer, error) {
	names := Names()
	all := make([]Polymer, len(names))
	for i, name := range names {
		p, err := Lookup(name)
		if err != nil {
			return nil, err
		}
		all[i] = p
	}
	return all, nil
}

// Lookup returns a polymer of the library by its name, such as "pa6". The error for
// a name that is not there is an [*UnknownError].
func Lookup(name string) (Polymer, error) {
	if !slices.Contains(Names(), name) {
		return Polymer{}, unknown(name, nil)
	}
	file := path.Join("library", name+".toml")
	text, err := library.ReadFile(file)
	if err != nil {
		return Polymer{}, err
	}
	p, err := Read(file, text, noBase)
	p.Origin = FromLibrary
	return p, err
}

func noBase(string) (Polymer, error) {
	return Polymer{}, errors.New("a library file stands alone")
}

// Resolve returns the polymer of a name in the library, spelt as [Understood] takes it but no word for a family, or, when the name ends in
// ".toml", of a file, read by open. The base of a file may be a file again, its path
// taken from the folder of the file that names it; a circle of bases is an error.
func Resolve(name string, open func(file string) ([]byte, error)) (Polymer, error) {
	return resolve(name, open, nil)
}

func resolve(name string, open func(string) ([]byte, error), chain []string) (Polymer, error) {
	if !strings.HasSuffix(name, ".toml") {
		return definite(name)
	}
	file := filepath.Clean(name)
	if slices.Contains(chain, file) {
		return Polymer{}, fmt.Errorf("the bases go in a circle: %s", strings.Join(append(chain, file), " -> "))
	}
	text, err := open(file)
	if err != nil {
		return Polymer{}, err
	}
	return Read(file, text, func(base string) (Polymer, error) {
		if strings.HasSuffix(base, ".toml") && !filepath.IsAbs(base) {
			base = filepath.Join(filepath.Dir(file), base)
		}
		return resolve(base, open, append(slices.Clone(chain), file))
	})
}

// definite looks a name up; a word for a family is none.
func definite(name string) (Polymer, error) {
	understood, taken, err := Understood(name)
	switch {
	case err != nil:
		return Polymer{}, err
	case taken != "":
		return Polymer{}, unknown(name, append([]string{understood}, familyOf(letters(name)).candidates...))
	}
	return Lookup(understood)
}
