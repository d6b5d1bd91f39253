# SPDX-License-Identifier: Apache-2.0
"""The Nth time that the program asks for memory it gets none, once or from then on: the results are
those of a run that had it, or there are none and one line says so.

What fails is operator new, in the program and in the libraries in C++ that it calls; a library in C
that asks malloc is met by the ceilings of little_memory_test.py.

Environment: TIDELOT_ALLOCATIONS (how many, 24), TIDELOT_FAULT_SEED (1).

usage: allocations_test.py PROGRAM SOURCE_FOLDER
"""
import collections
import os
import random
import shutil
import signal
import subprocess
import sys
import unittest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / 'support'))
from little_run import LittleBay, errors, state  # noqa: E402

ALLOCATIONS = int(os.environ.get('TIDELOT_ALLOCATIONS', '24'))
SEED = int(os.environ.get('TIDELOT_FAULT_SEED', '1'))
TIMES = ('run.json',)
FAILING = r'''
#include <dlfcn.h>

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <new>

namespace {

std::atomic<unsigned long> asked{0};
std::atomic<bool> begun{false};  // what libraries ask for before main is nobody's to answer
unsigned long number(const char* name) {
  const char* text = std::getenv(name);
  return text == nullptr ? 0 : std::strtoul(text, nullptr, 10);
}
const unsigned long first = number("FAIL_FIRST"), last = number("FAIL_LAST");
// Only requests that may be refused with a null pointer are counted, and fail.
const bool refusable_alone = number("FAIL_REFUSABLE") != 0;
struct Teller {
  ~Teller() {
    if (const char* name = std::getenv("FAIL_COUNT")) {
      if (std::FILE* file = std::fopen(name, "w")) {
        std::fprintf(file, "%lu\n", asked.load());
        std::fclose(file);
      }
    }
  }
} teller;

void* memory(std::size_t size, std::size_t align, bool refusable = false) {
  const unsigned long turn = begun && (refusable || !refusable_alone) ? ++asked : 0;
  if (first != 0 && turn >= first && turn <= last) {
    return nullptr;
  }
  return align == 0 ? std::malloc(size == 0 ? 1 : size)
                    : std::aligned_alloc(align, (size + align - 1) / align * align);
}
void* or_throw(void* found) { return found != nullptr ? found : throw std::bad_alloc(); }

using Main = int (*)(int, char**, char**);
Main real_main = nullptr;
int counted_main(int argc, char** argv, char** environment) {
  begun = true;
  return real_main(argc, argv, environment);
}

}  // namespace

extern "C" int __libc_start_main(Main main, int argc, char** argv, void (*init)(), void (*fini)(),
                                 void (*ld_fini)(), void* stack) {
  using Start = int (*)(Main, int, char**, void (*)(), void (*)(), void (*)(), void*);
  real_main = main;
  const auto start = reinterpret_cast<Start>(dlsym(RTLD_NEXT, "__libc_start_main"));
  return start(counted_main, argc, argv, init, fini, ld_fini, stack);
}

void* operator new(std::size_t n) { return or_throw(memory(n, 0)); }
void* operator new[](std::size_t n) { return or_throw(memory(n, 0)); }
void* operator new(std::size_t n, const std::nothrow_t&) noexcept { return memory(n, 0, true); }
void* operator new[](std::size_t n, const std::nothrow_t&) noexcept { return memory(n, 0, true); }
void* operator new(std::size_t n, std::align_val_t a) { return or_throw(memory(n, std::size_t(a))); }
void* operator new[](std::size_t n, std::align_val_t a) { return or_throw(memory(n, std::size_t(a))); }
void operator delete(void* p) noexcept { std::free(p); }
void operator delete[](void* p) noexcept { std::free(p); }
void operator delete(void* p, std::size_t) noexcept { std::free(p); }
void operator delete[](void* p, std::size_t) noexcept { std::free(p); }
void operator delete(void* p, std::align_val_t) noexcept { std::free(p); }
void operator delete[](void* p, std::align_val_t) noexcept { std::free(p); }
void operator delete(void* p, std::size_t, std::align_val_t) noexcept { std::free(p); }
void operator delete[](void* p, std::size_t, std::align_val_t) noexcept { std::free(p); }
'''


class Allocations(LittleBay):
    @classmethod
    def setUpClass(cls):
        super().setUpClass()
        source, cls.library = cls.made / 'failing.cpp', cls.made / 'failing.so'
        source.write_text(FAILING)
        subprocess.run(['c++', '-std=c++20', '-O1', '-shared', '-fPIC', '-o', cls.library, source],
                       check=True)

    def scout(self, out, threads=1, **settings):
        return self.tidelot('scout', '--out', out, '--quiet', '--threads', threads,
                            env={**os.environ, 'LD_PRELOAD': str(self.library), **settings})

    def requests(self, **settings):
        """How many a whole run makes."""
        count = self.top / 'count'
        whole = self.scout(self.top / 'counted', FAIL_COUNT=str(count), **settings)
        self.assertEqual(whole.returncode, 0, whole.stderr)
        return int(count.read_text())

    def wrong(self, out, expected, ended):
        """What broke the promise, or None."""
        if ended.returncode == 0:
            return None if state(out, TIMES) == expected else 'the results are not those of a run'
        lines = [e for e in errors(ended.stderr) if 'Assertion' not in e]   # PROJ's
        if ended.returncode not in (2, 3, 4, -signal.SIGSEGV):   # PROJ's, which says so in a line, too
            return f'status {ended.returncode}: {ended.stderr[-300:]}'
        if len(lines) != 1 or not lines[0].startswith('tidelot: '):
            return f'not one line: {ended.stderr[-300:]}'
        seen = [p.name for p in out.glob('*') if not p.name.startswith('.tidelot-work')]
        return f'left behind: {seen}' if seen else None

    def test_each(self):
        self.plan()
        expected = state(self.scouted(), TIMES)
        most, refusable = self.requests(), self.requests(FAIL_REFUSABLE='1')
        self.assertGreater(most, 10_000)
        self.assertGreater(refusable, 1_000)
        draw, ends, out, broken = random.Random(SEED), collections.Counter(), self.top / 'short', []
        for number in range(ALLOCATIONS):
            # Opening files asks less often for memory than computing does, so many are early; what may
            # be refused is asked for in libraries, which may go on without it.
            first = (draw.randint(1, refusable), draw.randint(1, most),
                     int(most ** draw.random()))[number % 3]
            last = first if draw.random() < 0.5 else 1 << 40
            ended = self.scout(out, 1 + draw.randrange(2), FAIL_FIRST=str(first), FAIL_LAST=str(last),
                               FAIL_REFUSABLE=str(int(number % 3 == 0)))
            ends[ended.returncode] += 1
            found = self.wrong(out, expected, ended)
            if found:
                broken.append(f'{first} to {last}{" refusable" if number % 3 == 0 else ""}: {found}')
            shutil.rmtree(out, ignore_errors=True)
        print('allocations', ALLOCATIONS, 'seed', SEED, 'of', most, 'status:', dict(ends))
        self.assertEqual(broken, [], f'{len(broken)} of {ALLOCATIONS}:\n' + '\n'.join(broken))
        self.assertIn(2, ends, 'none failed')


if __name__ == '__main__':
    unittest.main(argv=sys.argv[:1])
