import { followPages, typedPages } from './follow-pages.ts';
import { sessionPages } from './session-pages.ts';

followPages(typedPages.filter((page) => !sessionPages.includes(page)));
