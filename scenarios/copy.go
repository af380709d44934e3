package scenarios

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"strandry/materials"
	"strandry/materials/text/strict"
)

// Copied is a file of a [Copy], its name with slashes.
type Copied struct {
	Name string
	Text []byte
}

// Copy is a scenario that can be run from any folder into which it is put with its material files.
type Copy struct {
	Text      []byte
	Materials []Copied
}

// materialKey is the key whose names may be those of files.
const materialKey = "strand.material"

// Copy makes a copy of the document. Its material files, those of its axes and their bases are
// brought along under names of their own, by which the copy calls them; comments at its top tell so, and
// that axes took the place of its own, written as for [Scenario.Varied]. The error is that a
// material file cannot be read again, or is named in a way that cannot be replaced.
func (s *Scenario) Copy(axes ...string) (*Copy, error) {
	own, err := s.document.Scenario()
	if err != nil {
		return nil, err
	}
	c := &Copy{}
	names := map[string]string{}
	for _, name := range slices.Concat([]string{own.found.name}, namedOn(own.Vary), namedOn(s.Vary)) {
		if _, known := names[name]; known || !strings.HasSuffix(name, ".toml") {
			continue
		}
		if names[name], err = c.bring(name, s.document.material); err != nil {
			return nil, err
		}
	}
	var top strings.Builder
	for i, axis := range axes {
		if on := namedOn(s.Vary[i : i+1]); on != nil {
			for k, name := range on {
				on[k] = cmp.Or(names[name], name)
			}
			axis = materialKey + "=" + strings.Join(on, ", ")
		}
		fmt.Fprintf(&top, "# swept with --vary %q\n", axis)
	}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		fmt.Fprintf(&top, "# the material file %q was brought along as %q\n", name, names[name])
	}
	c.Text = append([]byte(top.String()), strict.Rewritten(s.document.text, func(key, value string) (string, bool) {
		other, ok := names[value]
		return strict.Quoted(other), ok && (key == "material" || key == "values")
	})...)
	copied, err := Parse(s.document.File, c.Text)
	if err == nil {
		copied.open = c.open
		_, err = copied.Scenario()
	}
	if err != nil {
		return nil, fmt.Errorf("no copy can be made that runs from another folder: %w", err)
	}
	return c, nil
}

// Inputs lists the files that the scenario was made from, as paths; none for a text without a folder.
func (s *Scenario) Inputs() []string {
	if s.document.open == nil {
		return nil
	}
	all := []string{s.document.path}
	for _, name := range slices.Concat([]string{s.found.name}, namedOn(s.Vary)) {
		if !strings.HasSuffix(name, ".toml") {
			continue
		}
		// What cannot be read is an error elsewhere.
		_, _ = materials.Resolve(name, func(file string) ([]byte, error) {
			if !filepath.IsAbs(file) {
				file = filepath.Join(filepath.Dir(s.document.path), file)
			}
			all = append(all, file)
			return Text(file)
		})
	}
	return all
}

// namedOn lists the materials on axes.
func namedOn(axes []Axis) []string {
	var names []string
	for _, a := range axes {
		if a.Key.Name == materialKey {
			names = append(names, a.Names...)
		}
	}
	return names
}

// bring takes up a material file with its bases, and returns what it is called in the copy.
func (c *Copy) bring(name string, open func(string) ([]byte, error)) (string, error) {
	type link struct {
		file string
		text []byte
	}
	var chain []link // the file, its base, the base of that, ...
	_, err := materials.Resolve(name, func(file string) ([]byte, error) {
		text, err := open(file)
		chain = append(chain, link{file, text})
		return text, err
	})
	if err != nil {
		return "", err
	}
	base := ""
	for _, l := range slices.Backward(chain) {
		text := bytes.TrimPrefix(l.text, []byte(byteOrderMark))
		if base != "" {
			text = strict.Rewritten(text, func(key, value string) (string, bool) {
				return strict.Quoted("../" + base), key == "base" && strings.HasSuffix(value, ".toml")
			})
		}
		sum := sha256.Sum256(text)
		base = hex.EncodeToString(sum[:6]) + "/" + safeName(filepath.Base(l.file))
		if !slices.ContainsFunc(c.Materials, func(m Copied) bool { return m.Name == copiedFolder+base }) {
			c.Materials = append(c.Materials, Copied{copiedFolder + base, text})
		}
	}
	return copiedFolder + base, nil
}

// copiedFolder is where the material files of a copy lie, each in a folder named after its content.
const copiedFolder = "materials/"

// open reads a material file of the copy.
func (c *Copy) open(name string) ([]byte, error) {
	for _, m := range c.Materials {
		if m.Name == filepath.ToSlash(name) {
			return m.Text, nil
		}
	}
	return nil, fmt.Errorf("%s: %w", name, errMissing)
}

// safeName keeps of the name of a file what one may hold anywhere; it ends in .toml.
func safeName(name string) string {
	name = strings.Map(func(r rune) rune {
		if r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("._-", r) {
			return '_'
		}
		return r
	}, strings.TrimSuffix(name, ".toml"))
	const most = 80
	return strings.TrimLeft(name[:min(len(name), most)], ".") + ".toml"
}
