# benchlead: what a developer runs. `make help` lists it.
GO      ?= go
TOOL    := $(GO) tool -modfile=.ci/tools.mod
VERSION ?= $(shell git describe --tags --always --dirty 2>/dev/null || echo dev)
LDFLAGS := -s -w -X benchlead/cmd/internal/app.version=$(VERSION)
BUILD   := CGO_ENABLED=0 $(GO) build -trimpath -ldflags "$(LDFLAGS)"
FUZZ    ?= 60s
# Where goroutines are, in the code or its tests. The rest of diag starts none, which
# diag/policy_test.go holds, as it holds this list.
RACE    := ./cmd/... ./ui/... ./diag/formula ./diag/job/...
PROOF   := testdata/proof/golden.txt
SUSPECTS := testdata/proof/suspects.txt

.PHONY: help outline man pictures run program build test race lint vuln check prove mutate fuzz bench benchmarks ratio update

help: ## this list
	@grep -E '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed 's/:.*## /\t/' | expand -t 10

run: ## open the bench with the invented demo jobs
	$(GO) run ./cmd/benchlead --demo

program: ## the program for this machine, into bin/
	$(BUILD) -o bin/benchlead ./cmd/benchlead

man: ## the manual pages, into bin/man/
	$(GO) run ./cmd/internal/manual bin/man

pictures: program ## the pictures of README.md, from real screens
	PATH="$(CURDIR)/bin:$$PATH" $(GO) run ./cmd/internal/pictures testdata/pictures/screens.script testdata/pictures

build: program ## the program for every machine it must run on, into bin/
	GOOS=windows GOARCH=amd64 $(BUILD) -o bin/benchlead-windows-amd64.exe ./cmd/benchlead
	GOOS=darwin GOARCH=arm64 $(BUILD) -o bin/benchlead-darwin-arm64 ./cmd/benchlead
	GOOS=linux GOARCH=arm64 $(BUILD) -o bin/benchlead-linux-arm64 ./cmd/benchlead

test: ## all tests
	$(GO) test ./...

race: ## tests with the race detector, where goroutines are (needs a C compiler)
	CGO_ENABLED=1 $(GO) test -race $(RACE)

lint: ## vet, staticcheck, gofumpt, and that no two trees repeat each other
	@.ci/repeats
	$(GO) vet ./...
	$(TOOL) staticcheck ./...
	@out=$$($(TOOL) gofumpt -l cmd diag trees ui); if [ -n "$$out" ]; then echo "gofumpt would change:"; echo "$$out"; exit 1; fi

vuln: ## known vulnerabilities, where the data can be had
	.ci/vuln

check: program ## all trees, prices and case files, and the proof
	bin/benchlead check testdata/cases/*.yaml
	$(MAKE) prove

prove: program ## trees and suspects against simulated machines: no figure worse than stored
	bin/benchlead prove --against $(PROOF)
	@# Without --json it shows what is wrong.
	bin/benchlead prove --draws 20 --untaken 10 --json >/dev/null
	bin/benchlead prove --suspects --against $(SUSPECTS)

mutate: ## how many broken trees check and the proof catch (SAMPLE=200: a quick look)
	$(GO) run ./cmd/internal/mutate $(if $(SAMPLE),-sample $(SAMPLE))

fuzz: ## each fuzz target for FUZZ (default 60s)
	.ci/fuzz $(FUZZ)

bench: ## the promised figures, each with its yardstick, into testdata/benchmarks.md
	.ci/bench

benchmarks: ## all Go benchmarks
	$(GO) test -run '^$$' -bench . -benchmem ./...

ratio: ## the circuit solver's time beside ngspice's
	.ci/ratio

outline: ## what the trees hold, as the program needs to know it before it reads them
	$(GO) test ./cmd/internal/app -run TestOutline -update

update: program ## rewrite golden files; read the difference before you commit it
	$(GO) test ./diag/tree ./ui/screen -update
	bin/benchlead prove --draws 100 --seed 1 --store $(PROOF)
	bin/benchlead prove --suspects --store $(SUSPECTS) key-start-12v button-start-pack
