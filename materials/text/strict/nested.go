package strict

// Table returns the table at a key, inline or with its own header; nil when it is
// absent or no table.
func (t *Table) Table(key string) *Table {
	value, ok := t.value(key)
	if !ok {
		return nil
	}
	if made, ok := t.children[key]; ok {
		return made[0]
	}
	values, ok := value.(map[string]any)
	if !ok {
		t.wrong(key, value, "a table")
		return nil
	}
	child := t.reader.table(join(t.path, key), values)
	t.children[key] = []*Table{child}
	return child
}

// Tables returns the tables of an array, [[key]] or inline; nil when it is absent
// or an element is no table.
func (t *Table) Tables(key string) []*Table {
	value, ok := t.value(key)
	if !ok {
		return nil
	}
	if made, ok := t.children[key]; ok {
		return made
	}
	all, ok := asTables(value)
	if !ok {
		t.wrong(key, value, "an array of tables ([["+key+"]])")
		return nil
	}
	out := make([]*Table, len(all))
	for i, values := range all {
		out[i] = t.reader.table(element(join(t.path, key), i+1), values)
	}
	t.children[key] = out
	return out
}

// Texts reads an array of texts of one line, which may be empty.
func (t *Table) Texts(key string) ([]string, bool) {
	value, ok := t.value(key)
	if !ok {
		return nil, false
	}
	list, ok := value.([]any)
	if !ok {
		t.wrong(key, value, "an array of texts")
		return nil, false
	}
	out := make([]string, len(list))
	for i, element := range list {
		if out[i], ok = element.(string); !ok {
			t.wrong(key, element, "a text")
			return nil, false
		}
		if !t.inert(key, out[i]) {
			return nil, false
		}
	}
	return out, true
}
