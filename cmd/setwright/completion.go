package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"

	"setwright/layout/list"
)

func completionCommand() *command {
	c := &command{
		name: "completion", args: "SHELL", summary: "print completion for bash, zsh or fish",
		least: 1, most: 1, missing: "which shell? bash, zsh or fish",
		flags: newFlags("completion"),
		about: `
Prints a script that completes commands, flags and file names in your shell.`,
		examples: `
source <(setwright completion bash)                       # now; or in ~/.bashrc
setwright completion zsh > "${fpath[1]}/_setwright"
setwright completion fish > ~/.config/fish/completions/setwright.fish`,
	}
	c.run = func(args []string, s streams) error {
		writers := map[string]func(io.Writer) error{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion}
		write, known := writers[args[0]]
		if !known {
			return c.misused("there is no completion for %q: choose bash, zsh or fish", args[0])
		}
		return write(s.out)
	}
	return c
}

// flagWords are a command's flags as they are typed.
func flagWords(c *command) []string {
	var words []string
	c.flags.VisitAll(func(f *pflag.Flag) {
		if f.Shorthand != "" {
			words = append(words, "-"+f.Shorthand)
		}
		words = append(words, "--"+f.Name)
	})
	return append(words, "--help")
}

// choices are the words an argument or a flag's value is chosen from, rather
// than a file name: after the words `setwright completion`, or the flags --like
// and --only.
func choices() (shells, starters, lists string) {
	return "bash zsh fish", strings.Join(starterNames(), " "), strings.Join(list.Names(), " ")
}

func bashCompletion(w io.Writer) error {
	shells, starters, lists := choices()
	var names, cases strings.Builder
	for _, c := range commands() {
		fmt.Fprintf(&names, "%s ", c.name)
		fmt.Fprintf(&cases, "\t\t%s) words='%s' ;;\n", c.name, strings.Join(flagWords(c), " "))
	}
	_, err := fmt.Fprintf(w, `# bash completion for setwright
_setwright() {
	local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} words=
	COMPREPLY=()
	if ((COMP_CWORD == 1)); then
		COMPREPLY=($(compgen -W '%s--help --version' -- "$cur"))
		return
	fi
	case $prev in
		--like) COMPREPLY=($(compgen -W '%s' -- "$cur")); return ;;
		--measure) COMPREPLY=($(compgen -W 'in mm' -- "$cur")); return ;;
		--only) COMPREPLY=($(compgen -W '%s' -- "$cur")); return ;;
		completion) COMPREPLY=($(compgen -W '%s' -- "$cur")); return ;;
		--csv) if [[ ! ${COMP_WORDS[1]} =~ ^(cut|compare)$ ]]; then compopt -o filenames; COMPREPLY=($(compgen -d -- "$cur")); fi; return ;;
		--svg) compopt -o filenames; COMPREPLY=($(compgen -d -- "$cur")); return ;;
	esac
	case ${COMP_WORDS[1]} in
%s	esac
	if [[ $cur == -* ]]; then
		COMPREPLY=($(compgen -W "$words" -- "$cur"))
	fi
}
complete -o default -F _setwright setwright
`, names.String(), starters, lists, shells, cases.String())
	return err
}

func zshCompletion(w io.Writer) error {
	shells, starters, lists := choices()
	var names, cases strings.Builder
	for _, c := range commands() {
		fmt.Fprintf(&names, "\t\t'%s:%s'\n", c.name, c.summary)
		fmt.Fprintf(&cases, "\t\t%s) flags=(%s) ;;\n", c.name, strings.Join(flagWords(c), " "))
	}
	_, err := fmt.Fprintf(w, `#compdef setwright
_setwright() {
	local -a commands flags
	commands=(
%s	)
	if ((CURRENT == 2)); then
		_describe command commands
		return
	fi
	case $words[CURRENT-1] in
		--like) compadd %s; return ;;
		--measure) compadd in mm; return ;;
		--only) compadd %s; return ;;
		completion) compadd %s; return ;;
		--csv) if [[ $words[2] == (cut|compare) ]]; then _files; else _files -/; fi; return ;;
		--svg) _files -/; return ;;
	esac
	case $words[2] in
%s	esac
	if [[ $words[CURRENT] == -* ]]; then
		compadd -- $flags
	else
		_files
	fi
}
if [[ $funcstack[1] == _setwright ]]; then
	_setwright "$@"
else
	compdef _setwright setwright
fi
`, names.String(), starters, lists, shells, cases.String())
	return err
}

func fishCompletion(w io.Writer) error {
	shells, starters, lists := choices()
	var b strings.Builder
	fmt.Fprintln(&b, "# fish completion for setwright")
	fmt.Fprintln(&b, "complete -c setwright -n __fish_use_subcommand -f -l version -d 'the version'")
	for _, c := range commands() {
		fmt.Fprintf(&b, "complete -c setwright -n __fish_use_subcommand -f -a %s -d '%s'\n", c.name, c.summary)
		c.flags.VisitAll(func(f *pflag.Flag) {
			value, usage := pflag.UnquoteUsage(f)
			fmt.Fprintf(&b, "complete -c setwright -n '__fish_seen_subcommand_from %s' -l %s", c.name, f.Name)
			if f.Shorthand != "" {
				fmt.Fprintf(&b, " -s %s", f.Shorthand)
			}
			if value != "" {
				fmt.Fprint(&b, " -r")
			}
			switch f.Name {
			case "like":
				fmt.Fprintf(&b, " -f -a '%s'", starters)
			case "measure":
				fmt.Fprint(&b, " -f -a 'in mm'")
			case "only":
				fmt.Fprintf(&b, " -f -a '%s'", lists)
			}
			fmt.Fprintf(&b, " -d '%s'\n", usage)
		})
	}
	fmt.Fprintln(&b, "complete -c setwright -l help -d 'help'")
	fmt.Fprintf(&b, "complete -c setwright -n '__fish_seen_subcommand_from completion' -f -a '%s'\n", shells)
	_, err := io.WriteString(w, b.String())
	return err
}
