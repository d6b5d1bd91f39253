# SPDX-License-Identifier: Apache-2.0
"""What a disk may hold after the power went off in the midst of a run, out of a trace of its calls.

A file's bytes are safe as of its last sync; those written since may be there, or not, or be zeros.
What changes folders (files made, moved and removed) may be lost from any instant on after the last
sync of anything (a disk that keeps one journal), or each change by itself unless its folder was
synced since (a disk that promises no more than the manual). A move is one step, whatever is lost.
"""
import re
import subprocess
from pathlib import Path

CALLS = ('open,openat,creat,write,pwrite64,writev,ftruncate,fallocate,fsync,fdatasync,mkdir,mkdirat,'
         'rename,renameat,renameat2,unlink,unlinkat,rmdir,link,linkat,symlink,symlinkat,'
         'copy_file_range,sendfile')
LINE = re.compile(r'^\d+ +(\w+)\((.*)\) += (-?\d+)')
TEXT = re.compile(r'"((?:[^"\\]|\\.)*)"')
OF_DESCRIPTOR = re.compile(r'^\d+<([^>]*)>')


def traced(command, trace):
    """Runs the command; its calls that touch files, in their order, whole bytes and all."""
    done = subprocess.run(['strace', '-f', '-y', '--seccomp-bpf', '-s', '100000000', '-xx', '-e',
                           f'trace={CALLS}', '-o', str(trace), *map(str, command)],
                          capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return joined(trace.read_text())


def joined(trace):
    """Lines of the trace; a call that others interrupted becomes one line where it came back."""
    begun, out = {}, []
    for line in trace.splitlines():
        process = line.split(' ', 1)[0]
        if line.endswith('<unfinished ...>'):
            begun[process] = line[:-len('<unfinished ...>')].rstrip()
        elif ' resumed>' in line:
            out.append(begun.pop(process) + line.split(' resumed>', 1)[1])
        else:
            out.append(line)
    return [(m[1], m[2]) for m in map(LINE.match, out) if m and int(m[3]) >= 0]


def unescaped(text):
    return bytes.fromhex(text.replace('\\x', ''))


class File:
    def __init__(self, data=b''):
        self.data, self.safe = bytearray(data), bytes(data)
        self.synced = True


class Folder:
    """Names of files and folders."""

    def __init__(self):
        self.names = {}


class Change:
    """Names of folders that are taken away and given: [(folder, name, node)]."""

    def __init__(self, taken, given):
        self.taken, self.given = taken, given

    def folders(self):
        return [folder for folder, _, _ in self.taken + self.given]

    def apply(self):
        for folder, name, node in self.taken:
            if folder.names.get(name) is node:
                del folder.names[name]
        for folder, name, node in self.given:
            folder.names[name] = node


class Disk:
    """A folder of files, as it was before the run; `step` follows one call of it."""

    def __init__(self, top):
        self.top = Path(top)
        self.begin = []                       # folders, and what they held
        self.root = self.read(self.top)
        self.changes, self.safe = [], set()   # of self.changes, by number: not lost any more
        self.journalled = 0                   # so many are not lost where the journal is one

    def read(self, path):
        if path.is_dir():
            folder = Folder()
            folder.names = {each.name: self.read(each) for each in path.iterdir()}
            self.begin.append((folder, dict(folder.names)))
            return folder
        return File(path.read_bytes())

    def parts(self, path):
        """None outside of the folder."""
        path = Path(path)
        return path.relative_to(self.top).parts if path.is_relative_to(self.top) else None

    def node(self, parts):
        at = self.root
        for part in parts:
            at = at.names.get(part) if isinstance(at, Folder) else None
        return at

    def entry(self, parts):
        folder = self.node(parts[:-1])
        return folder, parts[-1], folder.names.get(parts[-1])

    def change(self, taken, given):
        new = Change([t for t in taken if t[2] is not None], given)
        new.apply()
        self.changes.append(new)

    def step(self, call, words):
        """Follows a call; is it one that changed something?"""
        texts = [unescaped(t) for t in TEXT.findall(words)]
        on = OF_DESCRIPTOR.match(words)
        if call in ('write', 'pwrite64', 'ftruncate', 'fallocate', 'fsync', 'fdatasync'):
            return self.of_descriptor(call, unescaped(on[1]).decode(), words, texts) if on else False
        assert call not in ('writev', 'copy_file_range', 'sendfile', 'link', 'linkat', 'symlink',
                            'symlinkat') or not any(self.parts(t.decode()) for t in texts), call
        paths = [self.parts(self.absolute(t.decode(errors='replace'), words)) for t in texts]
        if not paths or not paths[0]:
            return False
        return self.of_path(call, paths, words)

    @staticmethod
    def absolute(path, words):
        """A path that is relative to a folder's descriptor, which stands before it."""
        base = OF_DESCRIPTOR.match(words)
        return path if path.startswith('/') or not base else unescaped(base[1]).decode() + '/' + path

    def of_descriptor(self, call, path, words, texts):
        parts = self.parts(path)
        node = None if parts is None else self.node(parts)
        if node is None:
            return False
        if call in ('fsync', 'fdatasync'):
            self.sync(node)
        elif call == 'write':
            node.data += texts[0]     # every file is written from its begin to its end
        elif call == 'pwrite64':
            at = int(words.rsplit(',', 1)[1])
            node.data += bytes(max(0, at - len(node.data)))
            node.data[at:at + len(texts[0])] = texts[0]
        else:
            size = sum(int(word) for word in re.findall(r', (\d+)', words)[-2:])
            node.data += bytes(max(0, size - len(node.data)))
        if call not in ('fsync', 'fdatasync'):
            node.synced = False
        return True

    def sync(self, node):
        self.journalled = len(self.changes)
        if isinstance(node, File):
            node.safe, node.synced = bytes(node.data), True
            return
        self.safe |= {i for i, change in enumerate(self.changes) if node in change.folders()}

    def of_path(self, call, paths, words):
        if call in ('open', 'openat', 'creat'):
            folder, name, node = self.entry(paths[0])
            if node is None and ('O_CREAT' in words or call == 'creat'):
                self.change([], [(folder, name, File())])
                return True
            if isinstance(node, File) and 'O_TRUNC' in words:
                node.data, node.synced = bytearray(), False
            return False
        if call in ('mkdir', 'mkdirat'):
            folder, name, _ = self.entry(paths[0])
            self.change([], [(folder, name, Folder())])
        elif call in ('unlink', 'unlinkat', 'rmdir'):
            self.change([self.entry(paths[0])], [])
        elif call in ('rename', 'renameat', 'renameat2'):
            taken, given = self.entry(paths[0]), self.entry(paths[1])
            self.change([taken, given], [(given[0], given[1], taken[2])])
        else:
            return False
        return True

    def after_a_cut(self, dice, one_journal):
        """What a new look at the disk finds: what lay there before and the changes that were kept."""
        kept = self.kept(dice, one_journal)
        for folder, names in self.begin:
            folder.names = names
        for number in kept:
            self.changes[number].apply()
        return self.root

    def kept(self, dice, one_journal):
        if one_journal:
            return range(dice.randint(self.journalled, len(self.changes)))
        share = dice.random()
        kept = {i for i in range(len(self.changes)) if i in self.safe or dice.random() < share}
        made = {id(node): number for number, change in enumerate(self.changes)
                for _, _, node in change.given if isinstance(node, Folder)}
        for number in sorted(kept, reverse=True):   # no file without the folder that it lies in
            while number is not None:
                kept.add(number)
                number = next((made[id(f)] for f in self.changes[number].folders()
                               if id(f) in made and made[id(f)] not in kept), None)
        return sorted(kept)


def written(node, path, dice):
    """Puts what the disk holds into a real folder."""
    if isinstance(node, Folder):
        path.mkdir(exist_ok=True)
        for name, each in node.names.items():
            written(each, path / name, dice)
        return
    whole = bytes(node.data)
    choices = [node.safe, bytes(len(whole)), whole[:len(whole) // 2], whole]
    path.write_bytes(whole if node.synced else dice.choice(choices))
