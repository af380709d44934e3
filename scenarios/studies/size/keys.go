package size

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strandry/materials/text/nearest"
	"strandry/materials/text/strict"
	"strandry/scenarios"
)

// keyOf finds the key among those that the scenario has read, or could read.
func keyOf(s *scenarios.Scenario, name string) (scenarios.Key, error) {
	for _, k := range s.Keys() {
		if k.Name != name || apart(name) != "" {
			continue
		}
		if _, instead := excluded(s, name); instead != "" && !k.Known {
			break
		}
		return k, nil
	}
	for _, value := range [...]string{"0 °C", "1 %", "100 Pa", "5 mm", "1 min", "1 mm/s", "1 L/min", "0.9"} {
		other, err := s.With(scenarios.Setting{Key: name, Value: value})
		if err != nil || apart(name) != "" {
			continue
		}
		for _, k := range other.Keys() {
			if k.Name == name {
				k.Known, k.Value = false, 0
				return k, nil
			}
		}
	}
	return scenarios.Key{}, RequestError{errors.New(refusal(s, name))}
}

// apart says why a key cannot change what happens to the strand; "" where it may.
func apart(name string) string {
	for _, of := range [...]struct{ keys, why string }{
		{"numerics.", "it is a setting of the solver"}, {"build.", "it only says what can be built"},
		{"store.", "it is about the dry store, of which strandry keeps tells"}, {"opening.", "it is about the dry store, of which strandry keeps tells"},
		{"nozzle.", "the nozzle comes after the path"}, {"strand.properties.nozzle_temperature", "the nozzle comes after the path"},
		{"strand.properties.softening", "it moves no water"}, {"vary", "it is about a sweep"}, {"uncertain", "it is about the odds"},
		{"pull.", machines}, {"desiccant.", machines}, {"money.", machines}, {"part", machines}, {"free", machines}, {"search.", machines},
		{"strand.material", "it is a name and no number; strandry suits compares materials"}, {"title", "it is a name and no number"},
	} {
		if strings.HasPrefix(name, of.keys) {
			return of.why
		}
	}
	if strings.HasPrefix(name, "zone.") && (strings.HasSuffix(name, ".heater") || strings.Contains(name, ".wall.")) {
		return machines
	}
	return ""
}

// machines is why keys of the machine around the strand are not sought.
const machines = "it is about the machine, and moves no water; run tells what it comes to, and size --cheapest chooses among such"

// refusal says in a sentence why a key cannot be sought, and names those that can and come nearest.
func refusal(s *scenarios.Scenario, name string) string {
	var names, known []string
	for _, k := range s.Keys() {
		property := strings.HasPrefix(k.Name, "strand.properties.") && !strings.HasPrefix(name, "strand.prop")
		if apart(k.Name) != "" || property {
			continue
		}
		if names = append(names, k.Name); k.Known {
			known = append(known, k.Name)
		}
	}
	why, instead := apart(name), ""
	if why == "" {
		if why, instead = excluded(s, name); why == "" {
			why = strange(s, name)
		}
	}
	near := nearest.Name(name, names)
	if why == "" && near != "" {
		return fmt.Sprintf("the scenario has no number %q; did you mean %q?", name, near)
	}
	if why == "" {
		why = "the scenario has no such number"
	}
	return fmt.Sprintf("%q cannot be sought: %s; try %s", name, why, strings.Join(useful(name, known, instead), ", "))
}

// excluded says which key of the file stands in the way of another, where one does.
func excluded(s *scenarios.Scenario, name string) (why, instead string) {
	_, err := s.With(scenarios.Setting{Key: name, Value: "5 mm"})
	var found strict.Faults
	if !errors.As(err, &found) {
		return "it is a name and no number", ""
	}
	for _, f := range found {
		other, together := strings.CutPrefix(f.Problem, "given together with ")
		if at := strings.Index(name, f.Key[strings.LastIndexByte(f.Key, '.')+1:]); together && at > 0 { // what is before is the table of both
			instead = name[:at] + other
			return "the file says " + instead + " in its place", instead
		}
	}
	for _, f := range found {
		switch {
		case strings.Contains(f.Problem, "true or false belongs"), f.Problem == "not one of the choices":
			return "it is a word and no number", ""
		case strings.Contains(f.Problem, "a plain number belongs"), strings.Contains(f.Problem, "a whole number belongs"):
			return "nothing lies between one number of it and the next", ""
		}
	}
	return "", ""
}

// strange says what is wrong with a key of a zone that there is not.
func strange(s *scenarios.Scenario, name string) string {
	rest, ofZone := strings.CutPrefix(name, "zone.")
	if !ofZone {
		return ""
	}
	var zones []string
	for _, z := range s.Model.Path {
		if rest == z.Name {
			return "it is a whole zone"
		}
		if rest == z.Name+".name" {
			return "it is a name and no number"
		}
		if strings.HasPrefix(rest, z.Name+".") {
			return ""
		}
		zones = append(zones, z.Name)
	}
	first, _, _ := strings.Cut(rest, ".")
	if nearest.Name(first, zones) != "" {
		return ""
	}
	return fmt.Sprintf("the path has no zone %q, only %s", first, strings.Join(zones, ", "))
}

// useful are up to three of the keys with a value: the one that stands in place of the name, those most like it, and those that most dryers
// turn on.
func useful(name string, names []string, instead string) []string {
	const most = 3
	var out []string
	add := func(keys ...string) {
		for _, key := range keys {
			if len(out) < most && slices.Contains(names, key) && !slices.Contains(out, key) {
				out = append(out, key)
			}
		}
	}
	of := func(ending string) string {
		return names[max(0, slices.IndexFunc(names, func(key string) bool { return strings.HasPrefix(key, "zone.") && strings.HasSuffix(key, ending) }))]
	}
	add(instead)
	add(nearest.Keys(name, names, 2)...)
	add(of(".length"), "feed.speed", of(".temperature"))
	return out
}
