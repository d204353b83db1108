// The few WASI calls that our modules import, for Node and for any other JavaScript host. They open nothing: output
// (an assert's last words) goes to the sink that the caller gives, and there is no environment, file or clock.
const kBadDescriptor = 8;
const kIllegalSeek = 29;

export async function instantiate(bytes, sink = () => {}) {
  let memory;
  // A view is made per call: when the memory grows, older views are detached.
  const view = () => new DataView(memory.buffer);
  const imports = {
    environ_sizes_get(count, size) {
      view().setUint32(count, 0, true);
      view().setUint32(size, 0, true);
      return 0;
    },
    environ_get: () => 0,
    fd_close: () => 0,
    fd_seek: () => kIllegalSeek,
    fd_fdstat_get: () => kBadDescriptor,
    fd_write(descriptor, vectors, count, written) {
      let total = 0;
      for (let i = 0; i < count; i += 1) {
        const start = view().getUint32(vectors + 8 * i, true);
        const length = view().getUint32(vectors + 8 * i + 4, true);
        sink(new Uint8Array(memory.buffer, start, length).slice());
        total += length;
      }
      view().setUint32(written, total, true);
      return 0;
    },
    proc_exit(status) {
      throw new Error(`the module ended itself with status ${status}`);
    },
  };
  const { instance } = await WebAssembly.instantiate(bytes, { wasi_snapshot_preview1: imports });
  memory = instance.exports.memory;
  instance.exports._initialize();
  return instance.exports;
}
