package cmd

// withoutScript is the codes that no script provokes yet, in alphabetical
// order. It may only shrink: TestEveryCodeHasAScript wants it exact.
var withoutScript = []string{}
