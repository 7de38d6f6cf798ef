package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"unicode/utf8"

	"github.com/alecthomas/kong"

	"haulm/almanac/verbs"
)

// Help lists the verbs under haulm almanac --help.
func (almanacCommand) Help() string {
	var list strings.Builder
	list.WriteString("It reads one JSON object on standard input and answers with one. The verbs:\n\n")
	for _, verb := range verbs.All() {
		fmt.Fprintf(&list, "  %-18s %s\n", verb.Name, verb.Says)
	}
	list.WriteString("\nhaulm almanac VERB --help shows a verb's fields, and an example to paste.\n")
	return list.String()
}

// printHelp is kong's help, but for a verb of the almanac, which has its own.
func printHelp(options kong.HelpOptions, ctx *kong.Context) error {
	name := askedVerb(ctx)
	if name == "" {
		return kong.DefaultHelpPrinter(options, ctx)
	}
	verb, err := verbs.Named(name)
	if err != nil {
		return err
	}
	return helpVerb(ctx.Stdout, verb)
}

// askedVerb is the verb on a command line that asks for help, or "".
func askedVerb(ctx *kong.Context) string {
	if command := ctx.Selected(); command == nil || command.Name != "almanac" {
		return ""
	}
	for _, path := range ctx.Path {
		if path.Positional != nil && path.Positional.Name == "verb" {
			return ctx.Value(path).String()
		}
	}
	return ""
}

// helpVerb shows what a verb answers, its fields, and its example with the
// answer, which is reckoned here so that it cannot be an old one.
func helpVerb(out io.Writer, verb verbs.Verb) error {
	answer, err := verbs.Run(verb.Name, []byte(verb.Example))
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "haulm almanac %s: %s.\n\nIt reads one JSON object on standard input:\n\n", verb.Name, verb.Says)
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, field := range verb.Fields() {
		fmt.Fprintf(table, "  %s\t%s\t%s\n", field.Path, presence(field), field.Says)
	}
	if err := table.Flush(); err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "\nTry it:\n\necho '%s' | haulm almanac %s\n\nIt answers:\n\n%s\n"+
		"haulm almanac %s --example > in.json writes that input to a file, to begin from.\n", verb.Example, verb.Name, begun(answer), verb.Name)
	return err
}

// mostShown is how many bytes of an answer help shows: a screenful. Years of bands
// would push the fields out of sight.
const mostShown = 1600

// begun is an answer, or its beginning where it is long.
func begun(answer []byte) string {
	if len(answer) <= mostShown {
		return string(answer)
	}
	whole := strings.ToValidUTF8(string(answer[:mostShown]), "")
	return fmt.Sprintf("%s…\n\nand so on, %d characters in all.\n", whole, utf8.RuneCount(answer))
}

// presence says in a word or two what a field takes; how a date is written
// stands in what is said of the field.
func presence(field verbs.Field) string {
	kind, _, _ := strings.Cut(field.Wanted, " written")
	if field.Optional {
		return kind + ", or left out"
	}
	return kind
}
