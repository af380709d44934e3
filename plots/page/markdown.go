package page

import (
	"bytes"
	"fmt"
	"strings"
)

// markdown sets the document as Markdown with tables, its figures as files beside it.
func markdown(d *document) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# Build log: %s\n\n%s\n", escaped(d.Title), escaped(d.Lead))
	for _, s := range d.Sections {
		fmt.Fprintf(&b, "\n## %s\n", escaped(s.Head))
		for i := range s.Blocks {
			b.WriteByte('\n')
			markdownBlock(&b, &s.Blocks[i])
		}
	}
	fmt.Fprintf(&b, "\n---\n\n%s\n", escaped(d.Foot))
	return b.Bytes()
}

func markdownBlock(b *bytes.Buffer, k *block) {
	switch {
	case k.Head != "":
		fmt.Fprintf(b, "### %s\n", escaped(k.Head))
	case k.Text != "":
		fmt.Fprintf(b, "%s\n", escaped(k.Text))
	case k.List != nil:
		for _, item := range k.List {
			fmt.Fprintf(b, "- %s\n", escaped(item))
		}
	case k.Facts != nil:
		for _, f := range k.Facts {
			fmt.Fprintf(b, "- **%s:** %s\n", escaped(f.Name), escaped(f.Value))
		}
	case k.Banner != nil:
		fmt.Fprintf(b, "**%s %s**: %s\n", k.Banner.Kind.Sign(), escaped(k.Banner.Word), escaped(k.Banner.Text))
	case k.Grid != nil:
		markdownGrid(b, k.Grid)
	case k.Picture != nil:
		p := k.Picture
		fmt.Fprintf(b, "![%s](%s/%s.png)\n\n**Figure %d. %s.** %s (%s/%s.svg is the same as a drawing.)\n",
			escaped(p.Alt), Figures, p.Name, p.Number, escaped(p.Head), escaped(p.Caption), Figures, p.Name)
	case k.Code != "":
		fence := strings.Repeat("`", max(3, longestRun(k.Code, '`')+1))
		fmt.Fprintf(b, "%s\n%s\n%s\n", fence, strings.TrimRight(k.Code, "\n"), fence)
	}
}

func markdownGrid(b *bytes.Buffer, g *grid) {
	markdownRow(b, g.Heads)
	rule := make([]string, len(g.Heads))
	for i := range rule {
		rule[i] = "---"
		if !g.Words && i > 0 {
			rule[i] = "--:"
		}
	}
	fmt.Fprintf(b, "| %s |\n", strings.Join(rule, " | "))
	for _, r := range g.Rows {
		if r.Group == "" {
			markdownRow(b, r.Cells)
			continue
		}
		fmt.Fprintf(b, "| *%s* %s|\n", escaped(r.Group), strings.Repeat("| ", len(g.Heads)-1))
	}
}

func markdownRow(b *bytes.Buffer, cells []string) {
	out := make([]string, len(cells))
	for i, c := range cells {
		out[i] = escaped(c)
	}
	fmt.Fprintf(b, "| %s |\n", strings.Join(out, " | "))
}

// longestRun is the length of the longest run of a byte.
func longestRun(s string, of byte) int {
	longest, run := 0, 0
	for i := range len(s) {
		run++
		if s[i] != of {
			run = 0
		}
		longest = max(longest, run)
	}
	return longest
}

// escaped makes a text inert: nothing in it is markup, it stays on one line and
// no address in it becomes a link.
func escaped(s string) string {
	words := strings.Fields(s)
	for i, word := range words {
		if address(word) {
			words[i] = verbatim(word)
		} else {
			words[i] = unmarked(word)
		}
	}
	return strings.Join(words, " ")
}

// address tells a word that a renderer may make a link of without being asked to.
func address(word string) bool {
	word = strings.ToLower(word)
	for _, sign := range [...]string{"://", "www.", "@", "mailto:", "xmpp:"} {
		if strings.Contains(word, sign) {
			return true
		}
	}
	return false
}

// verbatim sets a word as code, in which nothing becomes a link.
func verbatim(word string) string {
	fence := strings.Repeat("`", longestRun(word, '`')+1)
	word = strings.ReplaceAll(word, "|", `\|`) // lest it end a cell
	if word[0] == '`' || word[len(word)-1] == '`' {
		word = " " + word + " "
	}
	return fence + word + fence
}

// unmarked is a word in which nothing is markup.
func unmarked(word string) string {
	var b strings.Builder
	for _, r := range word {
		switch r {
		case '<':
			b.WriteString("&lt;")
		case '>':
			b.WriteString("&gt;")
		case '&':
			b.WriteString("&amp;")
		case '\\', '`', '*', '_', '[', ']', '|', '#', '~', '$':
			b.WriteByte('\\')
			b.WriteRune(r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
