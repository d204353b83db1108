// Jobs in and out as files, and their text as it is kept.
import type { Job } from '../generated/job';

export const textOf = (job: Job): string => `${JSON.stringify(job, null, 2)}\n`;

// Null when the text is no object at all; whether it is a job is for the engine to say.
export function jobOf(text: string): Job | null {
  try {
    const job: unknown = JSON.parse(text);
    return job !== null && typeof job === 'object' && !Array.isArray(job) ? (job as Job) : null;
  } catch {
    return null;
  }
}

// Fit for a file name whatever the title says.
export function fileName(title: string, ending: string): string {
  const stem = title
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .toLowerCase();
  return `${stem || 'job'}${ending}`;
}

export function download(name: string, media: string, bytes: Uint8Array | string): void {
  const url = URL.createObjectURL(new Blob([bytes as BlobPart], { type: media }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

export function pickFile(accept: string): Promise<string | null> {
  return new Promise((done) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.onchange = () => {
      const file = input.files?.[0];
      if (!file) done(null);
      else void file.text().then(done, () => done(null));
    };
    input.oncancel = () => done(null);
    input.click();
  });
}
