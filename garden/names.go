package garden

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A NamePart is a stretch of a botanical name that is printed in one style.
type NamePart struct {
	Text   string `json:"text"`
	Italic bool   `json:"italic"`
}

// NameParts splits a botanical name into what is printed in italics (genus,
// species and lower epithets) and what stands upright (×, rank terms such as
// subsp., cultivars in quotes, Groups, selling names, authors). The texts joined
// are the name with its runs of space made single; no other letter is changed.
// A name that does not begin like a genus is all upright: it is someone's own
// words.
//
// After the International Code of Nomenclature for Cultivated Plants, 9th
// edition (2016), and for × the Shenzhen Code (2018), article H.3.
func NameParts(name string) []NamePart {
	var parts []NamePart
	var reader nameReader
	for i, word := range strings.Fields(name) {
		if i > 0 {
			parts = append(parts, NamePart{Text: " "})
		}
		sign, rest := cutHybridSign(word)
		if sign != "" {
			parts = append(parts, NamePart{Text: sign, Italic: reader.italic(sign)})
		}
		if rest != "" {
			parts = append(parts, NamePart{Text: rest, Italic: reader.italic(rest)})
		}
	}
	return mergeParts(parts)
}

// A nameReader walks the words of a name and knows what may come next. Its zero
// value stands before the genus.
type nameReader struct {
	genus   bool // a genus was read, and an epithet may follow
	hybrid  bool // a hybrid sign was read last: a genus or an epithet may follow
	upright bool // in a cultivar, Group or author, until a rank or a hybrid sign
	quoted  bool // between the quotes of a cultivar, where nothing else counts
}

// rankTerms stand upright and an epithet follows them; otherTerms stand upright
// and change nothing.
var (
	rankTerms  = []string{"subsp.", "ssp.", "var.", "subvar.", "f.", "fo.", "forma", "subf.", "nothosubsp.", "nothovar.", "nothof.", "convar."}
	otherTerms = []string{"sp.", "spp.", "cf.", "aff.", "agg.", "cv.", "hort.", "auct.", "ex", "et", "in", "&", "of", "hybrid", "hybrids"}
)

// italic reads the next word and says how it is printed.
func (r *nameReader) italic(word string) bool {
	quoted := r.quoted || strings.HasPrefix(word, "'") || strings.HasPrefix(word, "‘")
	r.quoted = quoted && !closesQuote(word)
	switch {
	case quoted:
		r.upright = true
	case isHybridSign(word):
		r.hybrid, r.upright = true, false
	case r.genus && slices.Contains(rankTerms, word):
		r.upright = false
	case r.upright || r.genus && slices.Contains(otherTerms, word):
	default:
		return r.latin(word)
	}
	return false
}

// latin judges a word that may be a genus or an epithet; what is neither begins
// an upright stretch.
func (r *nameReader) latin(word string) bool {
	first, _ := utf8.DecodeRuneInString(word)
	genus := (!r.genus || r.hybrid) && unicode.IsUpper(first) && !shouted(word)
	epithet := r.genus && unicode.IsLower(first)
	r.genus, r.hybrid = r.genus || genus, false
	r.upright = !genus && !epithet
	return genus || epithet
}

// shouted is how selling names are written: two letters or more, all capitals.
func shouted(word string) bool {
	return utf8.RuneCountInString(strings.TrimRight(word, ".")) > 1 && strings.ToUpper(word) == word
}

func closesQuote(word string) bool {
	word = strings.TrimRight(word, "),;")
	return utf8.RuneCountInString(word) > 1 && (strings.HasSuffix(word, "’") || strings.HasSuffix(word, "'"))
}

// isHybridSign allows the letter that keyboards have for the sign that the Codes
// want, and the + of graft-chimaeras.
func isHybridSign(word string) bool { return word == "×" || word == "+" || word == "x" }

// cutHybridSign parts the sign from a word that it is written against.
func cutHybridSign(word string) (sign, rest string) {
	if rest, found := strings.CutPrefix(word, "×"); found {
		return "×", rest
	}
	return "", word
}

// mergeParts joins neighbours of one style. A space is italic between italics,
// else upright.
func mergeParts(words []NamePart) []NamePart {
	var merged []NamePart
	for i, part := range words {
		if part.Text == " " {
			part.Italic = words[i-1].Italic && words[i+1].Italic
		}
		if last := len(merged) - 1; last >= 0 && merged[last].Italic == part.Italic {
			merged[last].Text += part.Text
		} else {
			merged = append(merged, part)
		}
	}
	return merged
}
